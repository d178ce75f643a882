// The calls as real buttons, the highest floor first: one a floor or, where
// landings tell which way one wants to go, one for each way and the car's.
import { make, the } from "./dom.js";
import { word } from "./words.js";

/** @typedef {import("./types.js").Snapshot} Snapshot */
/** @typedef {import("./types.js").CallButton} CallButton */

/** @type {Map<string, HTMLButtonElement>} by call */
const buttons = new Map();
/** @type {Map<string, HTMLElement>} by floor: what shows that its lamp is lit */
const floors = new Map();

/**
 * @param {CallButton[]} list by floor, the lowest first
 * @param {(call: string) => void} press
 */
export function layCalls(list, press) {
  buttons.clear();
  floors.clear();
  const several = list.some(({ kind }) => kind !== "");
  /** @type {Map<string, HTMLElement[]>} */
  const rows = new Map();
  for (const { call, floor, kind } of list) {
    const text = make("span", { class: kind ? "call-kind" : "call-floor" }, kind ? word(`page.call-kind-${kind}`) : floor);
    const button = make("button", { type: "button", class: "call", "data-floor": floor, "data-call": call, "data-kind": kind || false, "aria-pressed": "false", onclick: () => press(call) }, text);
    buttons.set(call, button);
    if (!rows.has(floor)) rows.set(floor, []);
    rows.get(floor)?.push(button);
    if (!several) floors.set(floor, button);
  }
  the("calls").classList.toggle("several", several);
  the("calls").replaceChildren(...[...rows].reverse().map(([floor, row]) => {
    if (!several) return make("li", {}, ...row);
    const name = make("span", { class: "call-floor" }, floor);
    floors.set(floor, name);
    return make("li", {}, name, ...row);
  }));
}

/**
 * @param {CallButton[]} list
 * @param {Snapshot} snapshot
 * @param {boolean} may whether a call may be made now
 */
export function fillCalls(list, snapshot, may) {
  for (const { call, floor, kind, registered } of list) {
    const button = buttons.get(call);
    if (!button) continue;
    const lit = snapshot.lamps[floor] === 1;
    const key = `${registered}${lit}`;
    if (button.dataset.key !== key) {
      button.dataset.key = key;
      button.setAttribute("aria-pressed", String(registered));
      button.setAttribute("aria-label", word(`page.call-button${kind && `-${kind}`}`, { floor }) + (registered ? word("page.call-registered") : "") + (lit ? word("page.call-lamp") : ""));
      const lamp = floors.get(floor);
      if (lamp) lamp.dataset.lamp = lit ? "1" : "0";
    }
    button.disabled = !may;
  }
}
