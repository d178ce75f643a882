// Run, pause, step, step back, start again, and speed.
import { radio, say, the } from "./dom.js";
import { word } from "./words.js";

/** @typedef {import("./types.js").Clock} Clock */
/** @typedef {import("./stage.js").Stage} Stage */

/** @param {Stage} stage */
export function transport(stage) {
  const run = /** @type {HTMLButtonElement} */ (the("run"));
  const back = /** @type {HTMLButtonElement} */ (the("back"));
  const step = /** @type {HTMLButtonElement} */ (the("step"));
  const reset = /** @type {HTMLButtonElement} */ (the("reset"));
  const speed = /** @type {HTMLFieldSetElement} */ (/** @type {unknown} */ (the("speed")));
  let running = false;

  run.addEventListener("click", () => stage.ask(running ? "pause" : "run"));
  back.addEventListener("click", () => stage.ask("back"));
  step.addEventListener("click", () => stage.ask("step"));
  reset.addEventListener("click", () => stage.ask("reset"));
  speed.addEventListener("change", () => stage.set("speed", Number(radio(speed))));

  return {
    /** @param {Clock} clock */
    show(clock) {
      running = clock.running;
      say(run, word(running ? "page.pause" : "page.run"));
      run.disabled = !running && !clock.canRun;
      back.disabled = !clock.canBack;
      step.disabled = !clock.canStep;
      reset.disabled = false;
      speed.disabled = false;
      if (Number(radio(speed)) !== clock.speed) radio(speed, String(clock.speed));
    },
    toggle() { run.click(); },
    step() { step.click(); },
    back() { back.click(); },
    reset() { reset.click(); },
    /** One place faster (+1) or slower (-1). */
    shift(/** @type {number} */ by) {
      const inputs = [...speed.querySelectorAll("input")];
      const next = inputs[inputs.findIndex((input) => input.checked) + by];
      next?.click();
    },
  };
}
