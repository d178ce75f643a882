// The explanation in the picture: the parts light up one after another, in the
// order in which each brought about the next.
import { make } from "./dom.js";
import { capital, word } from "./words.js";

/** @typedef {import("./lesson-types.js").Light} Light */

/** A step of the chain is shown this long before the next, milliseconds. */
const step = 1100;

/** Places of the picture that stand for what has none of its own. @type {Record<string, string>} */
const instead = { stop: "car", door: "car-door", "at-rest": "car", "landing-door": "car-door", "vane-switch": "car" };

/**
 * @param {Light[]} chain
 * @param {(part: string) => void} show shows a part in the picture
 */
export function lights(chain, show) {
  if (!chain.length) return [];
  let timer = 0;
  const buttons = chain.map(({ part, text }, i) => make("button", {
    type: "button", class: "light", onclick: () => { stop(); light(i); },
  }, capital(text)));
  const play = make("button", { type: "button", onclick: () => (timer ? stop() : start()) }, word("page.lesson-light"));

  /** @param {number} i */
  function light(i) {
    buttons.forEach((button, k) => button.setAttribute("aria-pressed", String(k === i)));
    show(instead[chain[i].part] ?? chain[i].part);
  }
  function start() {
    let i = 0;
    play.textContent = word("page.lesson-light-stop");
    light(i);
    timer = setInterval(() => {
      i += 1;
      if (i === chain.length || !play.isConnected) { stop(); return; }
      light(i);
    }, step);
  }
  function stop() {
    clearInterval(timer);
    timer = 0;
    play.textContent = word("page.lesson-light");
  }
  buttons.forEach((button) => button.setAttribute("aria-pressed", "false"));
  return [make("section", { class: "chain", "aria-label": word("page.lesson-chain") },
    make("h3", {}, word("page.lesson-chain")),
    make("ol", {}, ...buttons.map((button) => make("li", {}, button))),
    make("div", { class: "lesson-buttons" }, play))];
}
