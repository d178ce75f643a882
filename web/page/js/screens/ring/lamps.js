// The position lamps as a passenger sees them.
import { make, say } from "../../dom.js";
import { word } from "../../words.js";
import { brightness } from "./filament.js";

const most = 8; // lamps in a row

/** @typedef {import("./filament.js").Filament} Filament */

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
