// Moving through the run: the strip that shows all of it, the slider on it,
// the way back to the end, and the list of its events.
import { say, the } from "./dom.js";
import { drawStrip, span } from "./strip.js";
import { eventList } from "./events.js";
import { number, word } from "./words.js";

/** @typedef {import("./types.js").Clock} Clock */
/** @typedef {import("./types.js").Strip} Strip */
/** @typedef {import("./stage.js").Stage} Stage */

/**
 * @param {Stage} stage
 * @param {(deed: () => void) => void} dare does what the stage may refuse, and says the refusal
 */
export function time(stage, dare) {
  const slider = /** @type {HTMLInputElement} */ (the("scrub"));
  const place = the("strip");
  const back = /** @type {HTMLButtonElement} */ (the("return"));
  const undo = /** @type {HTMLButtonElement} */ (the("undo"));
  const list = eventList(stage, dare);
  let end = 0;
  let held = false; // the reader has hold of the slider
  let asked = -1; // the moment it asked for; it may be further already
  let drawn = "";

  // One look a frame is enough, however fast the slider goes.
  let due = 0;
  slider.addEventListener("input", () => {
    due ||= requestAnimationFrame(() => {
      due = 0;
      asked = Number(slider.value);
      dare(() => (asked >= end ? stage.ask("return") : stage.ask("look", asked)));
    });
  });
  slider.addEventListener("pointerdown", () => { held = true; });
  for (const kind of ["pointerup", "pointercancel", "change", "blur"]) slider.addEventListener(kind, () => { held = false; });
  back.addEventListener("click", () => { dare(() => stage.ask("return")); (back.hidden ? slider : back).focus(); });
  undo.addEventListener("click", () => { dare(() => stage.ask("undo")); });

  /** @param {Clock} clock */
  function show(clock) {
    end = clock.endS;
    const to = span(end);
    slider.disabled = end === 0;
    if (slider.max !== String(to)) slider.max = String(to);
    if (!clock.looking || Math.abs(clock.time_s - asked) > 0.01) {
      asked = -1;
      if (!held && !due) slider.value = String(clock.looking ? clock.time_s : Math.ceil(end * 10) / 10);
    }
    slider.setAttribute("aria-valuetext", word("page.time-value", { time: number(clock.time_s, 1), end: number(end, 1) }));
    the("transport").classList.toggle("looking", clock.looking);
    the("looking").hidden = !clock.looking;
    back.hidden = !clock.looking;
    undo.hidden = clock.looking || !clock.canUndo;
    say(the("clock"), word("page.value-seconds", { value: number(clock.time_s, 1) }));
    const key = `${clock.run} ${end} ${place.clientWidth}`;
    if (key !== drawn && place.clientWidth > 0) {
      drawn = key;
      drawStrip(the("strip-drawing"), /** @type {Strip} */ (stage.ask("strip")), to, place.clientWidth);
    }
    list.show(clock);
  }

  new ResizeObserver(() => { if (stage.inner) show(stage.ask("clock")); }).observe(place);
  return { show, list };
}
