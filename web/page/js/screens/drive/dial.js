// A figure that is set by a slider or typed, whichever one likes. A figure out
// of its bounds is taken no further than the bound.
import { number, word } from "../../words.js";

/**
 * @typedef {object} Dial
 * @property {(value: number, least: number, most: number) => void} bound
 * @property {number} value
 * @property {HTMLElement} root
 */

/**
 * @param {HTMLElement} root label, number field, unit and slider
 * @param {() => void} changed
 * @returns {Dial}
 */
export function dial(root, changed) {
  const [field, slider] = /** @type {HTMLInputElement[]} */ ([...root.querySelectorAll("input")]);
  const decimals = Number(root.dataset.decimals), step = Number(root.dataset.step);
  const unit = root.querySelector(".unit")?.textContent ?? "";
  let now = 0, least = 0, most = 0;
  slider.setAttribute("aria-label", word("drive-screen.slider", { name: root.querySelector("label")?.textContent ?? "" }));
  field.step = "any";
  slider.step = String(step);

  const show = () => {
    if (Number(field.value) !== now || field.value === "") field.value = String(Number(now.toFixed(4)));
    slider.value = String(now);
    slider.setAttribute("aria-valuetext", `${number(now, decimals)} ${unit}`);
  };
  const take = (/** @type {number} */ value, /** @type {boolean} */ typed) => {
    const to = Math.max(least, Math.min(value, Math.max(most, typed ? Number(field.max) : most)));
    if (!Number.isFinite(to) || to === now) { show(); return; }
    now = to;
    show();
    changed();
  };
  field.addEventListener("change", () => take(field.value === "" ? NaN : Number(field.value), true));
  slider.addEventListener("input", () => take(Number(slider.value), false));

  return {
    root,
    /** Sets value and bounds without telling. */
    bound(value, from, to) {
      least = from;
      most = to;
      for (const input of [field, slider]) { input.min = String(from); input.max = String(to); }
      now = value;
      show();
    },
    get value() { return now; },
    set value(value) { now = value; show(); },
  };
}
