// The screen of hand-winding: a machine of its own, the procedure in its
// order, brake and wheel in two hands, and what the load does to both. The
// cautions stand there as long as the screen does.
import { ask } from "../screens.js";
import { make, radio, say } from "../dom.js";
import { number, word } from "../words.js";
import { StageError } from "../stage.js";
import { put, room } from "./drive/picture.js";
import { plain } from "./drive/tables.js";
import { breathe } from "./drive/work.js";
import { Live } from "./winding/live.js";
import { stepList } from "./winding/steps.js";

/** @typedef {import("../stage.js").Stage} Stage */
/** @typedef {import("./winding/types.js").Form} Form */
/** @typedef {import("./winding/types.js").Now} Now */
/** @typedef {import("./winding/types.js").Room} Room */

/** How many times as fast a row of short movements is shown. */
const lapse = 8;
/** Within this of the landing the marks are together, millimetres. */
const together = 4;
const still = matchMedia("(prefers-reduced-motion: reduce)");

/**
 * @param {HTMLElement} root
 * @param {Stage} stage
 * @returns {import("../screens.js").Screen}
 */
export function screen(root, stage) {
  const find = (/** @type {string} */ selector) => /** @type {HTMLElement} */ (root.querySelector(selector));
  const field = (/** @type {string} */ selector) => /** @type {HTMLInputElement} */ (find(selector));
  const go = (/** @type {string} */ action, /** @type {object} */ args = {}) => ask(stage, "winding", action, args);
  const lives = ["shaft", "wheel"].map((picture) => new Live(find(`#winding-${picture}`), picture, (args) => go("draw", args)));
  const steps = stepList(find("#winding-procedure"), take, () => {
    find("#winding-hands").scrollIntoView({ block: "end" });
    find("#winding-hold").focus({ preventScroll: true });
  });
  /** @type {Form} */
  let form;
  /** @type {Now} */
  let now;
  let shown = false, request = 0, series = 0, laid = 0, held = false;
  /** @type {number | null} where the car stood before the movement that goes on, turns */
  let before = null;

  // --- beginning ----------------------------------------------------------------

  function fill() {
    form = /** @type {Form} */ (go("form"));
    find("#winding-floor").replaceChildren(...form.floors.toReversed().map((floor) => make("option", { value: floor.name }, floor.name)));
    field("#winding-floor").value = form.floor;
    field("#winding-off").value = String(form.offMM);
    field("#winding-load").value = String(form.loadKG);
    field("#winding-load").max = String(form.mostKG);
    find("#winding-cautions").replaceChildren(...form.cautions.map((text) => make("li", {}, text)));
    say(find("#winding-of"), word("winding-screen.of", { building: form.building }));
    find("#winding-call-buttons").replaceChildren(...form.floors.map((floor) =>
      make("button", { type: "button", onclick: () => did(go("call", { floor: floor.name })) }, word("winding-screen.call", { floor: floor.name }))));
  }

  /** Puts the car where the fields say. */
  function begin() {
    halt();
    const answer = /** @type {Room} */ (go("begin", { floor: field("#winding-floor").value, offMM: Number(field("#winding-off").value),
      loadKG: Number(field("#winding-load").value), width: room(find("#winding-effort")) }));
    steps.clear();
    before = null;
    tell(word("winding-screen.begun"));
    lay(answer);
  }

  /** Lays out all that follows machine, size and theme. @param {Room} [answer] */
  function lay(answer = go("room", { width: room(find("#winding-effort")) })) {
    laid = find(".winding-main").clientWidth;
    say(find("#winding-drift"), answer.drift);
    say(find("#winding-balance"), answer.stays);
    find("#winding-figures tbody").replaceChildren(...answer.figures.map((row) => make("tr", { "data-key": row.key },
      make("th", { scope: "row" }, row.name), make("td", { class: "amount" }, row.text))));
    plain(find("#winding-storeys"), answer.storeys);
    put(find("#winding-effort"), answer.effort);
    say(find("#winding-effort-say"), answer.effortSay);
    put(find("#winding-runaway"), answer.runaway);
    say(find("#winding-runaway-say"), answer.runawaySay);
    say(find("#winding-runaway-hint"), word("winding-screen.runaway-hint", { seconds: number(0.6, 1) }));
    for (const live of lives) live.lay();
    show(answer.now, true);
  }

  // --- the machine ----------------------------------------------------------------

  /** @param {string} text @param {boolean} [refused] */
  function tell(text, refused = false) {
    say(find("#winding-said"), text);
    find("#winding-said").classList.toggle("refused", refused);
  }

  /** Shows the machine as it stands. @param {Now} next @param {boolean} whole with no regard to time */
  function show(next, whole) {
    now = next;
    steps.show(now.steps);
    const state = find("#winding-state");
    if (state.childElementCount !== now.states.length) {
      state.replaceChildren(...now.states.map(({ key, name }) => make("div", { "data-key": key }, make("dt", {}, name), make("dd"))));
    }
    now.states.forEach(({ text }, i) => say(/** @type {Element} */ (state.children[i].querySelector("dd")), text));
    switches();
    for (const live of lives) live.show(whole);
    find("#winding-calls").hidden = now.next !== "done";
    find("#winding-hands").hidden = now.next === "done";
    if (!now.busy) settled();
    if (now.busy && !request && !series) tick();
  }

  function switches() {
    const body = find("#winding-switches tbody");
    if (body.childElementCount !== now.switches.length) {
      body.replaceChildren(...now.switches.map(() => make("tr", {}, make("th", { scope: "row" }), make("td"), make("td"), make("td"), make("td"))));
    }
    now.switches.forEach((row, i) => {
      const line = body.children[i];
      line.classList.toggle("near", row.near);
      [row.floor, row.direction, row.centre, row.brush, row.lamp].forEach((text, k) => say(line.children[k], text));
    });
  }

  /** Lets the machine's time pass as long as something goes on. */
  function tick() {
    if (still.matches) {
      // No motion: straight to where it comes to rest.
      for (let spent = 0; now.busy && spent < 120; spent += 0.5) now = /** @type {Now} */ (go("tick", { seconds: 0.5 }));
      show(now, true);
      return;
    }
    let last = performance.now();
    const frame = (/** @type {number} */ time) => {
      request = 0;
      if (!shown || !stage.inner || series) return;
      show(/** @type {Now} */ (go("tick", { seconds: Math.min((time - last) / 1000, 0.1) })), false);
      last = time;
      if (now.busy) request ||= requestAnimationFrame(frame);
      else show(now, true);
    };
    request = requestAnimationFrame(frame);
  }

  /** What a short movement came to, once the brake has set. */
  function settled() {
    if (held) release();
    if (before === null || series) return;
    const mm = (now.turns - before) * now.perTurn;
    before = null;
    tell(Math.abs(mm) < 0.5 ? word("winding-screen.stayed")
      : word("winding-screen.moved", { mm: number(Math.abs(mm), 0), way: word(`winding-screen.${mm > 0 ? "up" : "down"}`) }));
  }

  /** Takes in what came of a deed; a refusal is said. @param {Now} next @returns {string} the refusal */
  function did(next) {
    if (next.refusal) tell(next.refusal, true);
    show(next, true);
    return next.refusal;
  }

  /** @param {string} step @param {string} [by] */
  function take(step, by) {
    halt();
    const why = did(go("step", { step, by: by ?? "" }));
    if (!why) tell(word("winding-screen.taken", { step: now.steps.find(({ key }) => key === step)?.say ?? "" }));
    return why;
  }

  // --- brake and wheel --------------------------------------------------------------

  const hold = find("#winding-hold");

  /** Eases the brake for a short movement. @param {string} way @param {number} [turns] */
  function ease(way, turns = 0) {
    const from = now.turns;
    const why = did(go("ease", { way, turns }));
    if (!why) before = from;
    return why;
  }

  function press() {
    if (held) return;
    halt();
    if (ease(radio(find("#winding-way")))) return;
    held = true;
    hold.setAttribute("aria-pressed", "true");
    say(hold, word("winding-screen.eased"));
  }

  /** Shows the button as let go. */
  function release() {
    held = false;
    hold.setAttribute("aria-pressed", "false");
    say(hold, word("winding-screen.hold"));
  }

  function let_() {
    if (!held) return;
    release();
    did(go("let"));
  }

  hold.addEventListener("pointerdown", (event) => { if (event.button === 0) { hold.setPointerCapture(event.pointerId); press(); } });
  for (const end of ["pointerup", "pointercancel", "lostpointercapture", "blur"]) hold.addEventListener(end, let_);
  hold.addEventListener("contextmenu", (event) => event.preventDefault());
  hold.addEventListener("keydown", (event) => {
    if (event.key !== " " && event.key !== "Enter") return;
    event.preventDefault();
    if (!event.repeat) press();
  });
  hold.addEventListener("keyup", (event) => {
    if (event.key !== " " && event.key !== "Enter") return;
    event.preventDefault();
    let_();
  });
  find("#winding-short").addEventListener("click", () => { halt(); ease(radio(find("#winding-way"))); });
  find("#winding-up").addEventListener("click", () => wind(1));
  find("#winding-down").addEventListener("click", () => wind(-1));
  find("#winding-stop").addEventListener("click", halt);

  /** Ends a row of short movements after the one that goes on. */
  function halt() { series = 0; }

  let rows = 0;
  /**
   * Winds on in short movements until the turns are done or the marks meet.
   * @param {number} dir up 1, down −1
   */
  async function wind(dir) {
    const amount = field("#winding-amount").value;
    const mine = series = (rows += 1);
    const from = now.turns, moves = now.moves;
    before = null;
    const way = dir > 0 ? "up" : "down";
    /** Turns that are still to be made. */
    const left = () => {
      if (amount !== "marks") return Number(amount) - dir * (now.turns - from);
      return toMarks(dir) / now.perTurn;
    };
    find("#winding-stop").removeAttribute("disabled");
    tell(word("winding-screen.lapse", { times: lapse, way: word(`winding-screen.${way}`) }));
    let stuck = 0, why = "";
    while (series === mine && shown && stuck < 3) {
      const rest = left();
      if (rest * now.perTurn < together / 2) break;
      const was = now.turns;
      why = did(go("ease", { way, turns: Math.min(rest, 0.25) }));
      if (why) break;
      await rested(mine);
      if (dir * (now.turns - was) < 0.005) stuck += 1;
      else stuck = 0;
    }
    if (series === mine || series === 0) {
      series = 0;
      find("#winding-stop").setAttribute("disabled", "");
      if (!why && shown) {
        tell(stuck ? word("winding-screen.no-further")
          : word("winding-screen.wound", { turns: number(Math.abs(now.turns - from), 1), moves: now.moves - moves, where: now.states.find(({ key }) => key === "car")?.text ?? "" }), stuck > 0);
      }
      show(now, true);
    }
  }

  /** Millimetres to the next landing that way; one that the car is at does not count. @param {number} dir */
  function toMarks(dir) {
    const heights = form.floors.map((floor) => 1000 * floor.height_m);
    const car = heights[form.floors.findIndex((floor) => floor.name === now.floor)] + now.offMM;
    const ahead = heights.filter((height) => dir * (height - car) > -together).map((height) => dir * (height - car));
    return ahead.length ? Math.max(0, Math.min(...ahead)) : 0;
  }

  /** Lets time pass, faster than it would, until brake and car are at rest. @param {number} mine */
  async function rested(mine) {
    let last = performance.now();
    while (shown && stage.inner) {
      if (!still.matches) await breathe();
      const time = performance.now();
      const seconds = still.matches ? 0.25 : Math.min(lapse * (time - last) / 1000, 0.5);
      last = time;
      show(/** @type {Now} */ (go("tick", { seconds })), false);
      if (!moving() || series !== mine && series !== 0) break;
    }
    if (still.matches) await breathe();
  }

  /** Whether the next short movement has to wait. */
  function moving() { return !now.canEase; }

  // --- what changes around it ----------------------------------------------------------

  find("#winding-place").addEventListener("submit", (event) => {
    event.preventDefault();
    try { begin(); } catch (error) {
      if (!(error instanceof StageError)) throw error;
      tell(error.message, true);
    }
  });
  const again = () => { if (shown && stage.inner && now) lay(); };
  new MutationObserver(again).observe(document.documentElement, { attributeFilter: ["data-theme"] });
  new ResizeObserver(() => { if (laid && Math.abs(find(".winding-main").clientWidth - laid) > 8) again(); }).observe(find(".winding-main"));
  stage.addEventListener("changed", () => { if (shown && stage.inner && go("form").fresh) { fill(); begin(); } });

  return {
    show() {
      shown = true;
      if (!form || go("form").fresh) { fill(); begin(); } else lay();
    },
    hide() {
      shown = false;
      let_();
      halt();
      cancelAnimationFrame(request);
      request = 0;
    },
  };
}
