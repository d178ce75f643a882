// Tapping along with a panel: every press is noted with the instant at which
// the key or the finger went down. What was tapped is kept in the browser.
import { make, say } from "../../dom.js";
import { keep, recall } from "../../kept.js";
import { number, word } from "../../words.js";
import { press } from "./press.js";

/** @typedef {{at: number, lamp: string, state: "on"|"off"|"depart"|"arrive"}} Tap milliseconds since 1970 */

const pool = [..."1234567890qwertyuiopasdfghjklzxcvbnm"];
const kept = "ring-taps"; // where the browser keeps what was tapped, by the floors of the building
const keys = { depart: ",", arrive: ".", undo: "Backspace" };

/**
 * @param {(selector: string) => HTMLElement} find in the screen
 * @param {() => void} changed
 */
export function recorder(find, changed) {
  const box = find("#ring-tap"), lamps = find("#ring-tap-lamps"), body = find("#ring-taps tbody");
  const button = (/** @type {string} */ id) => /** @type {HTMLButtonElement} */ (find(`#ring-tap-${id}`));
  /** @type {string[]} */
  let floors = [];
  /** @type {Tap[]} */
  let taps = [];
  /** @type {Tap[][]} what was noted before each change, for undo */
  let past = [];
  /** @type {Map<string, {at: HTMLButtonElement, state: HTMLElement}>} */
  const places = new Map();
  /** @type {Map<string, (time: number) => void>} what each key does */
  const heard = new Map();

  const place = () => floors.join(" "); // buildings with the same floors have the same panel
  const lit = (/** @type {string} */ lamp) => taps.findLast((tap) => tap.lamp === lamp && (tap.state === "on" || tap.state === "off"))?.state === "on";
  const seconds = (/** @type {Tap} */ tap) => (tap.at - taps[0].at) / 1000;

  /** @param {string} lamp @param {Tap["state"]} state @param {number} time of the page's own clock */
  function tap(lamp, state, time) {
    if (taps.some((one) => one.state === state && lamp === "")) return; // one trip departs and arrives once
    const at = performance.timeOrigin + time;
    change([...taps, { at: taps.length ? Math.max(at, taps[taps.length - 1].at) : at, lamp, state }]);
  }

  /** @param {Tap[]} next */
  function change(next) {
    past.push(taps);
    set(next);
  }

  function undo() {
    const last = past.pop();
    if (last) set(last);
  }

  /** @param {Tap[]} next */
  function set(next) {
    taps = next;
    keep(kept, { ...recall(kept), [place()]: taps });
    show();
  }

  function show() {
    for (const [lamp, { at, state }] of places) {
      const on = lit(lamp);
      at.setAttribute("aria-pressed", String(on));
      say(state, word(on ? "ring-screen.is-on" : "ring-screen.is-off"));
    }
    for (const mark of ["depart", "arrive"]) button(mark).disabled = taps.some((one) => one.state === mark);
    button("undo").disabled = past.length === 0;
    for (const id of ["#ring-tap-anew", "#ring-taps-csv", "#ring-taps-edit"]) /** @type {HTMLButtonElement} */ (find(id)).disabled = taps.length === 0;
    body.replaceChildren(...taps.map((one, i) => make("tr", {}, make("th", { scope: "row" }, String(i + 2)), make("td", {}, number(seconds(one), 3)),
      make("td", {}, one.lamp || word("ring-screen.none")), make("td", {}, word(`ring-screen.is-${one.state}`)))));
    const rows = /** @type {HTMLElement} */ (body.closest(".scroll"));
    rows.scrollTop = rows.scrollHeight;
    const last = taps[taps.length - 1];
    say(find("#ring-tap-said"), last ? word(`ring-screen.tapped-${last.state}`, { lamp: last.lamp, seconds: number(seconds(last), 3) })
      : word("ring-screen.tap-first"));
    changed();
  }

  for (const mark of /** @type {const} */ (["depart", "arrive"])) {
    const deed = (/** @type {number} */ time) => tap("", mark, time);
    press(button(mark), deed);
    heard.set(keys[mark], deed);
    button(mark).append(" ", make("kbd", {}, keys[mark]));
  }
  heard.set(keys.undo.toLowerCase(), undo);
  button("undo").append(" ", make("kbd", {}, "⌫"));
  button("undo").addEventListener("click", undo);
  button("anew").addEventListener("click", () => { change([]); box.focus(); });
  // Keys are heard while the focus is in the box only.
  box.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey || event.repeat) return;
    const deed = heard.get(event.key.toLowerCase());
    if (!deed) return;
    event.preventDefault();
    deed(event.timeStamp);
  });

  return {
    /** @param {string[]} names of the floors, the lowest first */
    lay(names) {
      floors = names;
      for (const key of [...heard.keys()]) if (!Object.values(keys).some((k) => k.toLowerCase() === key)) heard.delete(key);
      places.clear();
      const own = new Set(names.filter((name) => name.length === 1).map((name) => name.toLowerCase()));
      const free = pool.filter((key) => !own.has(key));
      lamps.replaceChildren(...names.map((name) => {
        const small = name.toLowerCase();
        const key = name.length === 1 && !heard.has(small) ? small : free.shift() ?? "";
        const state = make("span", { class: "tap-state" });
        const at = make("button", { type: "button", class: "tap", "aria-pressed": "false", "aria-keyshortcuts": key || false },
          make("span", { class: "tap-lamp" }, name), state, ...(key ? [make("kbd", {}, key.toUpperCase())] : []));
        const deed = (/** @type {number} */ time) => tap(name, lit(name) ? "off" : "on", time);
        press(at, deed);
        if (key) heard.set(key, deed);
        places.set(name, { at, state });
        return at;
      }));
      const had = recall(kept)?.[place()];
      taps = Array.isArray(had) ? had : [];
      past = taps.map((_, i) => taps.slice(0, i));
      show();
    },
    /** Marks rows that cannot be used, until something is changed. @param {number[]} which their numbers */
    mark(which) {
      for (const [i, row] of [...body.children].entries()) row.classList.toggle("wrong", which.includes(i + 2));
    },
    /** What was tapped, as a file of observations. */
    csv() {
      return ["time_s,lamp,state", ...taps.map((one) => `${seconds(one).toFixed(3)},${one.lamp},${one.state}`), ""].join("\n");
    },
  };
}
