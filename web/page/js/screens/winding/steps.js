// The procedure as a list. Every step can be tried; what is refused says why
// where it was tried.
import { make, say } from "../../dom.js";
import { word } from "../../words.js";

/** @typedef {import("./types.js").Step} Step */

/** The steps at which a lock is fitted or taken off, and how that is worded. */
/** @type {Record<string, string>} */
const locks = { "locked-off": "winding-screen.lock", "lock-removed": "winding-screen.unlock" };

/**
 * @param {HTMLElement} list
 * @param {(step: string, by?: string) => string} take returns the refusal, "" for none
 * @param {() => void} toHands
 */
export function stepList(list, take, toHands) {
  /** @type {Map<string, {item: HTMLElement, refusal: HTMLElement, any: HTMLElement, own: HTMLElement[]}>} */
  const rows = new Map();
  const people = () => [word("winding-screen.person-brake"), word("winding-screen.person-wheel")];

  /** @param {string} key @param {string} [by] */
  function tried(key, by) {
    for (const { refusal } of rows.values()) refusal.hidden = true;
    const why = take(key, by);
    const row = rows.get(key);
    if (!row) return;
    say(row.refusal, why);
    row.refusal.hidden = !why;
    if (why) return;
    // The button is gone with its step: the focus goes on to the next one.
    const next = /** @type {HTMLElement | null} */ (list.querySelector("li.now button:not([hidden])"));
    if (!document.activeElement || document.activeElement === document.body || row.item.contains(document.activeElement)) next?.focus();
  }

  /** @param {Step} step */
  function row(step) {
    const button = (/** @type {string} */ label, /** @type {() => void} */ onclick) =>
      make("button", { type: "button", onclick, "aria-describedby": `step-${step.key}` }, label);
    // What only some steps have, they have when it is their turn.
    const own = step.key in locks ? people().map((who) => button(word(locks[step.key], { who }), () => tried(step.key, who)))
      : step.key === "move" ? [button(word("winding-screen.to-hands"), toHands)] : [];
    const any = button(word("winding-screen.take"), () => tried(step.key));
    const refusal = make("p", { class: "refusal", hidden: true });
    const item = make("li", { "data-step": step.key }, make("p", { class: "step-say", id: `step-${step.key}` }, step.say),
      make("p", { class: "step-why" }, step.why), make("div", { class: "buttons" }, any, ...own), refusal);
    rows.set(step.key, { item, refusal, any, own });
    return item;
  }

  let last = "";
  /** Keeps the present step in sight where the list has a frame of its own. @param {HTMLElement} [item] */
  function follow(item) {
    const frame = list.parentElement;
    if (!item || !frame || frame.scrollHeight <= frame.clientHeight + 1) return;
    const top = item.offsetTop - frame.offsetTop;
    if (top + item.offsetHeight > frame.scrollTop + frame.clientHeight || top < frame.scrollTop) frame.scrollTop = top - frame.clientHeight / 3;
  }

  return {
    /** @param {Step[]} steps */
    show(steps) {
      if (!rows.size) list.replaceChildren(...steps.map(row));
      for (const step of steps) {
        const at = rows.get(step.key);
        if (!at) continue;
        at.item.classList.toggle("done", step.done);
        at.item.classList.toggle("now", step.now);
        if (step.now) at.item.setAttribute("aria-current", "step");
        else at.item.removeAttribute("aria-current");
        at.any.hidden = step.done || (step.now && at.own.length > 0);
        for (const own of at.own) own.hidden = !step.now;
        say(at.any, word(step.now ? "winding-screen.take" : "winding-screen.try"));
        if (step.done) at.refusal.hidden = true;
      }
      const at = steps.find((step) => step.now)?.key ?? "";
      if (at === last) return;
      last = at;
      follow(rows.get(at)?.item);
    },
    /** Forgets what was refused. */
    clear() { for (const { refusal } of rows.values()) refusal.hidden = true; },
  };
}
