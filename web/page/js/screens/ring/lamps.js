// The position lamps as a passenger sees them, with filaments that take their
// time: the same law as in the program's own lamp.
import { make, say } from "../../dom.js";
import { word } from "../../words.js";

const most = 8; // lamps in a row

/** @typedef {{riseS: number, fallS: number}} Filament seconds from cold to nine tenths, and from hot to one tenth */

/**
 * Brightness after a time fed, or not fed.
 * @param {Filament} lamp
 * @param {number} from
 * @param {boolean} fed
 * @param {number} time
 */
function after(lamp, from, fed, time) {
  return fed ? 1 - (1 - from) * 10 ** (-time / lamp.riseS) : from * 10 ** (-time / lamp.fallS);
}

/**
 * Brightness at an instant, 0 to 1, of a lamp that was cold before the first
 * of the instants at which it is fed and cut off in turn.
 * @param {Filament} lamp
 * @param {number[]} changes seconds
 * @param {number} time
 */
export function brightness(lamp, changes, time) {
  let last = -Infinity, now = 0, fed = false;
  for (const at of changes) {
    if (at > time) break;
    if (last > -Infinity) now = after(lamp, now, fed, at - last);
    last = at;
    fed = !fed;
  }
  return last === -Infinity ? 0 : after(lamp, now, fed, time - last);
}

/**
 * A panel of lamps, the lowest floor first.
 * @param {HTMLElement} root
 * @param {string} title
 */
export function lampPanel(root, title) {
  const row = make("div", { class: "lamps" });
  const state = make("p", { class: "lamps-lit" });
  root.classList.add("lamp-panel");
  root.replaceChildren(make("h4", {}, title), row, state);
  /** @type {HTMLElement[]} */
  let lamps = [];
  /** @type {string[]} */
  let names = [];
  return {
    /** @param {string[]} floors */
    lay(floors) {
      names = floors;
      // Even rows, the lowest floors in the lowest one.
      const rows = Math.ceil(floors.length / most), columns = Math.ceil(floors.length / rows);
      lamps = floors.map((name, k) => {
        const lamp = make("span", { class: "lamp", "aria-hidden": "true", "data-floor": name }, name);
        lamp.style.gridRow = String(rows - Math.floor(k / columns));
        return lamp;
      });
      row.style.setProperty("--columns", String(columns));
      row.replaceChildren(...lamps);
    },
    /**
     * @param {Filament} lamp
     * @param {number[][]} changes by floor
     * @param {number} time
     */
    show(lamp, changes, time) {
      const lit = [];
      for (const [k, at] of lamps.entries()) {
        const bright = brightness(lamp, changes[k] ?? [], time);
        at.style.setProperty("--bright", bright.toFixed(3));
        at.classList.toggle("lit", bright > 0.4);
        if (bright > 0.4) lit.push(names[k]);
      }
      say(state, lit.length ? word("ring-screen.lit-lamps", { count: lit.length, lamps: lit.join(", ") }) : word("ring-screen.lit-none"));
    },
  };
}
