// The bar over the picture: what is pointed at, and the picture's size.
import { say, the } from "./dom.js";
import { number, word } from "./words.js";

/** @typedef {import("./stage.js").Stage} Stage */

const step = 1.5; // of one press
const stride = 0.2; // of the picture's size, of one press of an arrow

/**
 * @param {Stage} stage
 * @param {HTMLElement} place
 */
export function lens(stage, place) {
  const larger = /** @type {HTMLButtonElement} */ (the("zoom-in"));
  const smaller = /** @type {HTMLButtonElement} */ (the("zoom-out"));
  const whole = /** @type {HTMLButtonElement} */ (the("zoom-whole"));

  const zoom = (/** @type {number} */ factor) => {
    // The chosen part stays where it is; with none chosen, the middle does.
    const { chosen } = stage.ask("clock");
    let [x, y] = [place.clientWidth / 2, place.clientHeight / 2];
    if (chosen) {
      try {
        const box = stage.ask("box", chosen);
        [x, y] = [(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2];
      } catch { /* out of sight just now */ }
    }
    stage.ask("zoom", factor, x, y);
    if (chosen) stage.ask("bring", chosen);
  };

  const deeds = {
    larger: () => zoom(step),
    smaller: () => zoom(1 / step),
    whole: () => stage.ask("whole"),
    /** @param {number} right @param {number} down */
    move: (right, down) => stage.ask("pan", right * stride * place.clientWidth, down * stride * place.clientHeight),
  };
  larger.addEventListener("click", deeds.larger);
  smaller.addEventListener("click", deeds.smaller);
  whole.addEventListener("click", deeds.whole);

  return {
    ...deeds,
    /** @param {number} scale */
    show(scale) {
      // A button that has the focus keeps it: it is marked, not disabled.
      smaller.setAttribute("aria-disabled", String(scale <= 1));
      whole.setAttribute("aria-disabled", String(scale <= 1));
      larger.setAttribute("aria-disabled", String(scale >= 6));
      say(whole, word("page.zoom-share", { percent: number(scale * 100, 0) }));
      whole.setAttribute("aria-label", word("page.zoom-whole", { percent: number(scale * 100, 0) }));
    },
  };
}
