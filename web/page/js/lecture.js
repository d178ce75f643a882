// The view for a lecture: the picture fills the screen, a presenter's keys do
// everything, and what the machine answers stays hidden until it is asked for.
// Every step forward is kept with the state before it, so that one key takes
// it back; the browser keeps the rest, so that a reload loses nothing.
import { events } from "./lecture/events.js";
import { Hands } from "./lecture/hands.js";
import { loupe } from "./lecture/loupe.js";
import { notes } from "./lecture/notes.js";
import { side } from "./lecture/side.js";
import { make, say, the } from "./dom.js";
import { titled } from "./progress.js";
import { ask, fragment } from "./screens.js";
import { StageError } from "./stage.js";
import { number, word } from "./words.js";

/** @typedef {import("./stage.js").Stage} Stage */
/** @typedef {import("./lesson-types.js").Lesson} Lesson */

const pictures = ["all", "shaft", "wheel", "circuit", "chart"];
const kept = "lecture";
const mostSteps = 40; // that can be taken back

/** What the view adds to the state of the machine. */
const blankState = () => ({ question: true, answer: false, picture: 0, hands: Hands.none() });

/**
 * @param {Stage} stage
 * @param {string} packed the state that the address asked for, "" for none
 */
export async function lecture(stage, packed) {
  const root = document.documentElement;
  document.body.append(...await fragment("lecture"));
  const go = (/** @type {string} */ action, /** @type {object} */ args = {}) => ask(stage, "lecture", action, args);
  /** @returns {Lesson | null} */
  const lesson = () => stage.ask("lesson");
  const clock = () => stage.ask("clock");

  let state = blankState();
  /** @type {{record: string, state: string}[]} */
  let steps = [];
  let blank = false;
  let at = ""; // item that is shown

  const hands = new Hands(() => state.hands, lesson, () => { keep(); show(); });
  const column = side(hands);
  const glass = loupe(stage);
  const list = events(go, clock, () => show());
  const own = notes(go, deed);

  // --- keeping ---------------------------------------------------------------

  function keep() {
    try {
      sessionStorage.setItem(kept, JSON.stringify({ record: stage.ask("record"), state, steps: steps.slice(-8), at: location.hash }));
    } catch { /* storage forbidden or full: a reload begins anew */ }
  }

  function comeBack() {
    if (packed) {
      try {
        go("unpack", { text: packed });
        return;
      } catch { note(word("lecture.damaged")); }
    }
    try {
      const had = JSON.parse(sessionStorage.getItem(kept) ?? "null");
      if (!had || (location.hash && had.at !== location.hash)) return;
      stage.ask("restore", JSON.stringify(had.record));
      state = { ...blankState(), ...had.state };
      steps = had.steps ?? [];
    } catch { sessionStorage.removeItem(kept); }
  }

  /** Notes the state, to come back to it. */
  function mark() {
    steps.push({ record: JSON.stringify(stage.ask("record")), state: JSON.stringify(state) });
    steps = steps.slice(-mostSteps);
  }

  // --- what the keys do --------------------------------------------------------

  /** @param {string} text */
  function note(text) {
    say(the("lecture-note"), text);
    clearTimeout(fade);
    fade = setTimeout(() => say(the("lecture-note"), ""), 4000);
  }
  let fade = 0;

  /** The next thing worth doing. */
  function next() {
    mark();
    const open = lesson();
    const moving = clock().running;
    if (clock().looking) { go("end"); return; }
    switch (open?.state) {
      case undefined:
        stage.ask("step");
        return;
      case "lead-in":
      case "running":
        // A second press does not wait for the end of the stretch.
        if (moving) stage.ask("advance", 600);
        else stage.ask("run");
        return;
      case "asked":
        if (hands.hidden) { state.hands.revealed = true; return; }
        go("commit", { answer: hands.majority });
        stage.ask("run");
        return;
      case "committed":
      case "paused":
        stage.ask("run");
        return;
      case "observe":
        go("seen");
        return;
      case "explained":
        if (!state.answer && open.kind !== "worked") { state.answer = true; return; }
        stage.ask("lessonDo", "next", "");
        state = { ...blankState(), picture: state.picture };
        if (lesson()?.state === "lead-in") stage.ask("run");
    }
  }

  function back() {
    const last = steps.pop();
    if (!last) return;
    stage.ask("restore", last.record);
    state = { ...blankState(), ...JSON.parse(last.state) };
    setPicture();
  }

  const setPicture = () => stage.set("view", pictures[state.picture]);

  /** @type {Record<string, () => void>} */
  const deeds = {
    next, back,
    freeze: () => stage.ask(clock().running ? "pause" : "run"),
    on: () => stage.ask("step"),
    off: () => go("back"),
    slow: () => stage.set("speed", clock().speed === 0.25 ? 1 : 0.25),
    blank: () => { blank = !blank; the("lecture-blank").hidden = !blank; },
    question: () => { state.question = !state.question; },
    answer: () => { if (lesson()?.state === "explained" || lesson()?.state === "done") state.answer = !state.answer; },
    hands: () => { if (!hands.open()) note(word("lecture.no-hands")); },
    reveal: () => hands.reveal(),
    again: () => { if (!hands.again()) note(word("lecture.no-hands")); },
    events: () => list.toggle(),
    loupe: () => glass.next(1),
    "loupe-back": () => glass.next(-1),
    picture: () => { state.picture = (state.picture + 1) % pictures.length; setPicture(); },
    theme: () => /** @type {HTMLElement} */ (the("theme").querySelector("input:not(:checked)")).click(),
    up: () => the("lecture-side").scrollBy({ top: -innerHeight / 4 }),
    down: () => the("lecture-side").scrollBy({ top: innerHeight / 4 }),
    help: () => { the("lecture-help").hidden = !the("lecture-help").hidden; },
    away: () => { the("lecture-help").hidden = true; list.close(); glass.close(); },
    full: () => { if (document.fullscreenElement) document.exitFullscreen(); else document.documentElement.requestFullscreen(); },
    notes: () => { if (!own.open()) note(word("lecture.no-window")); },
    async link() {
      const address = `${location.origin}${location.pathname}?view=lecture#state=${go("pack")}`;
      try {
        await navigator.clipboard.writeText(address);
        note(word("lecture.linked"));
      } catch {
        history.replaceState(null, "", address);
        note(word("lecture.link-is"));
      }
    },
  };

  /** Does something by name; what the machine refuses is said. @param {string} name */
  function deed(name) {
    // A blank screen comes back as it was; nothing else happens behind it.
    if (blank && name !== "blank") name = "blank";
    try { deeds[name]?.(); } catch (error) {
      if (!(error instanceof StageError)) throw error;
      note(error.message);
    }
    keep();
    show();
  }

  /** @type {Record<string, string>} */
  const keys = {
    PageDown: "next", PageUp: "back", " ": "freeze", ArrowRight: "on", ArrowLeft: "off", ArrowUp: "up", ArrowDown: "down",
    ".": "blank", b: "blank", a: "answer", h: "hands", v: "reveal", d: "again", q: "question", e: "events", z: "loupe", Z: "loupe-back",
    s: "slow", p: "picture", t: "theme", l: "link", n: "notes", f: "full", "?": "help", Escape: "away",
  };

  /** @param {KeyboardEvent} event */
  function press(event) {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const target = /** @type {HTMLElement} */ (event.target);
    if (target.closest?.("select, input, textarea")) return;
    if (target.closest?.("button, a") && [" ", "Enter"].includes(event.key)) return;
    if (/^Digit[1-9]$/.test(event.code) && !blank) {
      if (hands.count(Number(event.code.slice(5)) - 1, event.shiftKey ? -1 : 1)) event.preventDefault();
      return;
    }
    const name = keys[event.key] ?? keys[event.key.toLowerCase()];
    if (!name || event.repeat && !["on", "off", "up", "down"].includes(name)) return;
    event.preventDefault();
    deed(name);
  }
  addEventListener("keydown", press);
  own.keys = press;

  // --- showing -----------------------------------------------------------------

  function show() {
    if (!stage.inner) return;
    const open = lesson();
    const item = open ? `${open.id}/${open.item}` : "";
    if (item !== at) {
      at = item;
      if (the("lecture-lesson")) /** @type {HTMLSelectElement} */ (the("lecture-lesson")).value = open?.id ?? "";
      calls();
    }
    const asks = open !== null && state.question;
    root.classList.toggle("lecture-asks", asks);
    the("lecture-side").hidden = !asks;
    the("lecture-hands").hidden = !asks;
    if (open) column.show(open, state.answer);
    const now = clock();
    say(the("lecture-freeze"), word(now.running ? "lecture.freeze" : "lecture.run"));
    glass.show();
    own.show({ open, time: number(now.time_s, 1), running: now.running, hands: hands.table() });
  }

  /** Landing calls, while no lesson has the machine. */
  function calls() {
    the("lecture-calls").replaceChildren(...(lesson() ? [] : stage.ask("building").floors.toReversed().map((/** @type {{name: string}} */ { name }) =>
      make("button", { type: "button", onclick: () => { try { stage.ask("call", name); } catch (error) { note(String(/** @type {Error} */ (error).message)); } } }, name))));
  }

  // --- beginning -----------------------------------------------------------------

  const lessons = /** @type {{id: string, title: string, language?: string}[]} */ (stage.ask("lessons"));
  const chooser = /** @type {HTMLSelectElement} */ (the("lecture-lesson"));
  chooser.append(make("option", { value: "" }, word("lecture.no-lesson")), ...lessons.map((lesson) => make("option", { value: lesson.id }, titled(lesson))));
  chooser.addEventListener("change", () => {
    mark();
    state = { ...blankState(), picture: state.picture };
    if (chooser.value) stage.ask("lessonDo", "open", `${chooser.value}/1`);
    else stage.ask("lessonDo", "close", "");
    chooser.blur();
    keep();
    show();
  });
  the("lecture-bar").addEventListener("click", (event) => {
    const name = /** @type {HTMLElement} */ (event.target).closest("button")?.dataset.do;
    if (!name) return;
    deed(name);
    // The next key is the presenter's, not this button's; who came by Tab stays.
    if (event.detail > 0) /** @type {HTMLElement} */ (document.activeElement)?.blur();
  });
  the("stage").addEventListener("click", (event) => { glass.at(event.clientX, event.clientY); show(); });
  let quiet = 0;
  addEventListener("pointermove", () => {
    root.classList.add("lecture-busy");
    clearTimeout(quiet);
    quiet = setTimeout(() => root.classList.remove("lecture-busy"), 3000);
  });
  addEventListener("pagehide", keep);

  stage.set("screen", "lecture", "mode", JSON.stringify({ on: true }));
  comeBack();
  setPicture();
  stage.addEventListener("changed", () => { due ||= requestAnimationFrame(() => { due = 0; show(); }); });
  let due = 0;
  show();
}
