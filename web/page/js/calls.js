// The landing calls as real buttons, the highest floor first.
import { make, the } from "./dom.js";
import { word } from "./words.js";

/** @typedef {import("./types.js").Snapshot} Snapshot */
/** @typedef {import("./types.js").Building} Building */

/** @type {Map<string, HTMLButtonElement>} */
const buttons = new Map();

/**
 * @param {Building} building
 * @param {(floor: string) => void} press
 */
export function layCalls(building, press) {
  buttons.clear();
  const list = building.floors.toReversed().map(({ name }) => {
    const button = make("button", { type: "button", class: "call", "data-floor": name, "aria-pressed": "false", onclick: () => press(name) },
      make("span", { class: "call-floor" }, name));
    buttons.set(name, button);
    return make("li", {}, button);
  });
  the("calls").replaceChildren(...list);
}

/**
 * @param {Snapshot} snapshot
 * @param {boolean} may whether a call may be made now
 */
export function fillCalls(snapshot, may) {
  for (const [floor, button] of buttons) {
    const called = snapshot.calls[floor] === 1;
    const lit = snapshot.lamps[floor] === 1;
    const key = `${called}${lit}`;
    if (button.dataset.key !== key) {
      button.dataset.key = key;
      button.dataset.lamp = lit ? "1" : "0";
      button.setAttribute("aria-pressed", String(called));
      button.setAttribute("aria-label", word("page.call-button", { floor }) + (called ? word("page.call-registered") : "") + (lit ? word("page.call-lamp") : ""));
    }
    button.disabled = !may;
  }
}
