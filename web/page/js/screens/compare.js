// The screen of two runs side by side: both are worked out at once, in slices,
// and then shown on one clock, at any moment of it.
import { ask } from "../screens.js";
import { make, radio, say } from "../dom.js";
import { number, word } from "../words.js";
import { StageError } from "../stage.js";
import { drawStrip, span } from "../strip.js";
import { Live } from "./winding/live.js";

/** @typedef {import("../stage.js").Stage} Stage */
/** @typedef {{building: string, scheme: string, start: string, calls: string, name: string, floors: string[]}} Facts */
/** @typedef {{floor: string[], time: string[], calls: string[], same: boolean}} Stops */
/** @typedef {{endS: number, marks: number[], strips: import("../types.js").Strip[], stops: Stops[], figures: {key: string, name: string, value: string[]}[], notes: string[]}} Told */

/** Seconds of both runs worked out in one slice. */
const slice = 6;
/** Milliseconds between two drawings; in key frames fewer are wanted. */
const gap = 60;
const frameGap = 500;
const still = matchMedia("(prefers-reduced-motion: reduce)");

/**
 * @param {HTMLElement} root
 * @param {Stage} stage
 * @returns {import("../screens.js").Screen}
 */
export function screen(root, stage) {
  const find = (/** @type {string} */ selector) => /** @type {HTMLElement} */ (root.querySelector(selector));
  const button = (/** @type {string} */ id) => /** @type {HTMLButtonElement} */ (find(`#compare-${id}`));
  const go = (/** @type {string} */ action, /** @type {object} */ args = {}) => ask(stage, "compare", action, args);
  const slider = /** @type {HTMLInputElement} */ (find("#compare-scrub"));
  const sides = [0, 1].map((side) => {
    const form = /** @type {HTMLElement} */ (find(`.compare-form[data-side="${side}"]`));
    const run = find(`.compare-run[data-side="${side}"]`);
    return {
      form, run,
      field: (/** @type {string} */ of) => /** @type {HTMLInputElement} */ (form.querySelector(`[data-of="${of}"]`)),
      lives: [...run.querySelectorAll(".live")].map((place) => new Live(/** @type {HTMLElement} */ (place), /** @type {HTMLElement} */ (place).dataset.picture ?? "",
        (args) => go("draw", { side, pace: running ? pace() : 0, ...args }))),
      /** @type {Facts | null} */
      facts: null,
    };
  });
  /** @type {Told | null} */
  let told = null;
  let time = 0, running = false, shown = false, request = 0, drawn = 0, round = 0, theme = "", width = 0;

  const pace = () => Number(radio(find("#compare-speed")));

  // --- setting up ---------------------------------------------------------------

  function fill() {
    const form = go("form");
    for (const [i, { field }] of sides.entries()) {
      field("building").replaceChildren(...form.buildings.map((/** @type {{id: string, name: string}} */ { id, name }) =>
        make("option", { value: id }, id ? name : word("compare.on-stage", { building: name }))));
      field("scheme").replaceChildren(make("option", { value: "" }, word("compare.scheme-own")),
        ...form.schemes.map((/** @type {{id: string, name: string}} */ { id, name }) => make("option", { value: id }, name)));
      for (const of of ["building", "scheme", "calls"]) field(of).value = form.sides[i][of];
      const start = form.sides[i].start;
      field("start").replaceChildren(make("option", { value: start }, start));
    }
  }

  /**
   * Sets one side up as its form says; a refusal stands beside the form.
   * @param {number} i
   * @param {boolean} [fresh] another building was chosen
   */
  function set(i, fresh = false) {
    const { form, field } = sides[i];
    const wrong = find(`#compare-wrong-${i}`);
    try {
      const facts = /** @type {Facts} */ (go("set", { side: i, building: field("building").value, scheme: field("scheme").value, start: field("start").value, calls: field("calls").value, fresh }));
      sides[i].facts = facts;
      field("start").replaceChildren(...facts.floors.toReversed().map((floor) => make("option", { value: floor }, floor)));
      field("start").value = facts.start;
      field("calls").value = facts.calls;
      say(find(`#compare-name-${i}`), facts.name);
      say(find(`[data-name="${i}"]`), facts.name);
      say(wrong, "");
      form.classList.remove("wrong");
      field("calls").removeAttribute("aria-invalid");
      return true;
    } catch (error) {
      if (!(error instanceof StageError)) throw error;
      say(wrong, error.message);
      form.classList.add("wrong");
      field("calls").setAttribute("aria-invalid", "true"); // all else is chosen from lists
      return false;
    }
  }

  for (const [i, { form, field }] of sides.entries()) {
    form.addEventListener("change", (event) => { if (set(i, event.target === field("building"))) work(); });
  }

  /** Works both runs out, a slice a turn, and then tells what came of them. */
  async function work() {
    const mine = ++round;
    pause();
    told = null;
    enable();
    for (let done = false; !done;) {
      const answer = go("work", { seconds: slice });
      done = answer.done;
      say(find("#compare-status"), word("compare.working", { time: number(answer.endS, 0) }));
      await new Promise((next) => setTimeout(next));
      if (mine !== round) return;
    }
    told = /** @type {Told} */ (go("told"));
    say(find("#compare-status"), word("compare.worked"));
    time = Math.min(time, told.endS);
    tell(told);
    lay();
    enable();
  }

  /** @param {Told} told */
  function tell({ stops, figures, notes }) {
    find("#compare-stops tbody").replaceChildren(...stops.map((row, n) => make("tr", { class: row.same ? "same" : "differs" },
      make("th", { scope: "row" }, String(n + 1)),
      ...[0, 1].flatMap((i) => row.floor[i]
        ? [make("td", { class: "compare-floor" }, row.floor[i]), make("td", { class: "amount" }, word("compare.clock", { time: row.time[i] })),
          make("td", { class: "amount" }, row.calls[i] ? word("compare.clock", { time: row.calls[i] }) : "")]
        : [make("td", { colspan: 3, class: "hint" }, word("compare.no-stop"))]))));
    find("#compare-figures tbody").replaceChildren(...figures.map(({ key, name, value }) => make("tr", { "data-key": key },
      make("th", { scope: "row" }, name), make("td", { class: "amount" }, value[0]), make("td", { class: "amount" }, value[1]))));
    for (const [i, { run }] of sides.entries()) {
      const note = /** @type {HTMLElement} */ (run.querySelector(".notice"));
      note.hidden = !notes[i];
      say(note, notes[i]);
    }
  }

  // --- the clock ------------------------------------------------------------------

  function enable() {
    for (const id of ["run", "back", "step", "again"]) button(id).disabled = !told;
    slider.disabled = !told;
    if (!told) return;
    button("back").disabled = time <= 0;
    button("step").disabled = time >= told.endS;
  }

  /** Lays out all that follows size, theme and runs. */
  function lay() {
    if (!told || !shown) return;
    theme = document.documentElement.dataset.theme ?? "";
    width = find("#compare-strips").clientWidth;
    const to = span(told.endS);
    slider.max = String(to);
    for (const i of [0, 1]) drawStrip(find(`.compare-strip[data-side="${i}"]`), told.strips[i], to, width);
    see();
    for (const { lives } of sides) for (const live of lives) live.lay();
  }

  /** Brings both runs to the present moment. */
  function see() {
    if (!stage.inner) return; // the frame is being loaded again
    go("see", { timeS: time, nowS: performance.now() / 1000, running, pace: pace() });
    if (!told) return;
    slider.value = String(time >= told.endS ? Math.ceil(time * 10) / 10 : time);
    slider.setAttribute("aria-valuetext", word("compare.scrub-value", { time: number(time, 1), end: number(told.endS, 1) }));
    say(find("#compare-clock"), word("compare.clock", { time: number(time, 1) }));
    for (const [i, { run, facts }] of sides.entries()) {
      const stop = told.strips[i].stops.findLast((s) => s.fromS <= time && time < s.toS + 0.001);
      const state = stop ? word("compare.at-floor", { floor: stop.floor }) : word("compare.on-the-way");
      for (const picture of run.querySelectorAll("[data-picture]")) picture.setAttribute("role", "img");
      run.querySelector('[data-picture="shaft"]')?.setAttribute("aria-label", word("compare.shaft", { run: facts?.name ?? "", state }));
      run.querySelector('[data-picture="chart"]')?.setAttribute("aria-label", word("compare.chart", { run: facts?.name ?? "" }));
    }
    enable();
  }

  function show() {
    if (!stage.inner) return;
    see();
    for (const { lives } of sides) for (const live of lives) live.show(true);
  }

  /** @param {number} to */
  function jump(to) {
    pause();
    time = Math.max(0, Math.min(to, told?.endS ?? 0));
    show();
  }

  function pause() {
    if (!running) return;
    running = false;
    cancelAnimationFrame(request);
    say(button("run"), word("compare.run"));
    show();
  }

  function run() {
    if (!told) return;
    if (time >= told.endS) time = 0;
    running = true;
    say(button("run"), word("compare.pause"));
    drawn = 0;
    tick(performance.now());
  }

  /** @param {number} last */
  function tick(last) {
    request = requestAnimationFrame((now) => {
      if (!running || !told) return;
      time = Math.min(time + (Math.min(now - last, 100) / 1000) * pace(), told.endS);
      if (time >= told.endS) { pause(); return; }
      if (now - drawn >= (still.matches ? frameGap : gap)) { drawn = now; show(); }
      tick(now);
    });
  }

  button("run").addEventListener("click", () => (running ? pause() : run()));
  button("again").addEventListener("click", () => jump(0));
  // Steps go to what a passenger of either lift would notice.
  button("step").addEventListener("click", () => jump(told?.marks.find((t) => t > time + 0.006) ?? Infinity));
  button("back").addEventListener("click", () => jump(told?.marks.findLast((t) => t < time - 0.006) ?? 0));
  slider.addEventListener("input", () => {
    const to = Number(slider.value);
    pause();
    time = Math.min(to, told?.endS ?? 0);
    cancelAnimationFrame(request);
    request = requestAnimationFrame(show);
  });

  new ResizeObserver(() => { if (shown && find("#compare-strips").clientWidth !== width) lay(); }).observe(find("#compare-strips"));
  new MutationObserver(() => { if (shown && theme !== document.documentElement.dataset.theme) lay(); })
    .observe(document.documentElement, { attributeFilter: ["data-theme"] });

  // A frame that was loaded again remembers neither run.
  stage.addEventListener("opened", () => { if (shown && set(0) && set(1)) work(); });

  let building = "";
  return {
    show() {
      shown = true;
      // Another building on the stage is another comparison, and so is a frame
      // that was loaded again behind another screen.
      const own = JSON.stringify(ask(stage, "building", "opened"));
      let lost = false;
      try { go("work", { seconds: 0 }); } catch { lost = true; }
      if (own === building && !lost) { lay(); return; }
      building = own;
      time = 0;
      fill();
      if (set(0) && set(1)) work();
    },
    hide() { pause(); shown = false; },
  };
}
