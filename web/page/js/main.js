// The page: joins the stage to the words, buttons and tables around it.
import { Stage, StageError } from "./stage.js";
import { Status } from "./status.js";
import { building as buildingChoice } from "./building.js";
import { fillCalls, layCalls } from "./calls.js";
import { carried, carry } from "./carry.js";
import { fillTables, layTables } from "./table.js";
import { closeup } from "./closeup.js";
import { fit } from "./size.js";
import { lens as lensBar } from "./lens.js";
import { lessonPanel } from "./lesson.js";
import { listLessons } from "./lesson-list.js";
import { parts as partList } from "./parts.js";
import { pointing } from "./point.js";
import { ask, screens } from "./screens.js";
import { own, Results } from "./results.js";
import { sound } from "./sound.js";
import { theme } from "./theme.js";
import { time } from "./time.js";
import { transport as transportBar } from "./transport.js";
import { make, radio, say, the } from "./dom.js";
import { keep, recall } from "./kept.js";
import { wanted, write } from "./address.js";
import { capital, language, number, word } from "./words.js";

/** @typedef {import("./types.js").Snapshot} Snapshot */
/** @typedef {import("./types.js").Building} Building */
/** @typedef {import("./types.js").Clock} Clock */
/** @typedef {import("./types.js").Lesson} Lesson */

const frame = /** @type {HTMLIFrameElement} */ (the("frame"));
const place = the("stage");
const stage = new Stage(frame, word("page.canvas"));
const status = new Status(the("status"));
const bar = transportBar(stage);
const moments = time(stage, refuse);
const parts = partList(stage);
const lens = lensBar(stage, place);
const pointer = pointing(stage, place);
const near = closeup(stage);
const panel = lessonPanel(act, leave, stage);
const rooms = screens(stage, notice);
const noises = sound(stage, notice);

// In a package for a college's system its own record counts, not the browser's.
const packed = document.documentElement.dataset.scorm;
const results = packed === undefined ? own : new Results("");

/** @type {Building} */
let building = { name: "", floors: [], warnings: [] };
let laid = ""; // the building the page is laid out for
let said = -1;

const choice = buildingChoice({
  shipped: (id) => { if (lessonOpen()) leave(); stage.ask("open", id); },
  load: (text) => { if (lessonOpen()) leave(); stage.ask("load", text); },
});

// --- what the stage says ---------------------------------------------------

let due = 0;
let shownAt = -Infinity;
// Nothing on the page may flicker: while time passes it is written four times a
// second, what happens between is in the picture.
stage.addEventListener("changed", () => {
  if (ticker && performance.now() < shownAt + 250 && stage.inner && stage.ask("clock").running) return;
  due ||= requestAnimationFrame(show);
});

/** Brings every part of the page up to the stage's state. */
function show() {
  cancelAnimationFrame(due);
  due = 0;
  if (!stage.inner) return;
  shownAt = performance.now();
  const clock = /** @type {Clock} */ (stage.ask("clock"));
  const snapshot = /** @type {Snapshot} */ (stage.ask("snapshot"));
  const lesson = /** @type {Lesson | null} */ (stage.ask("lesson"));
  const now = /** @type {Building} */ (stage.ask("building"));
  const key = JSON.stringify(now);
  if (key !== laid) {
    laid = key;
    building = now;
    say(the("building-name"), word("page.building-line", { name: building.name, count: building.floors.length }));
    layCalls(stage.ask("buttons"), (call) => refuse(() => stage.ask("call", call)));
    layTables(building, snapshot);
    parts.lay();
    choice.mark(now.id ?? "", now.name);
    if (!exhibiting) { // its visitors have no building to come back to
      const own = ask(stage, "building", "opened");
      keep("building", own.id ? null : { text: own.text });
    }
  }
  fillTables(building, snapshot);
  fillCalls(stage.ask("buttons"), snapshot, clock.canCall);
  bar.show(clock);
  moments.show(clock);
  parts.show(clock.chosen);
  lens.show(clock.scale);
  pointer.scaled(clock.scale);
  near.show(clock.running);
  if (!apart) { panel.show(lesson); results.watch(lesson); }
  if (!exhibiting) write(lesson?.id ?? "", lesson?.item ?? 1);
  if (clock.saidCount !== said) {
    said = clock.saidCount;
    if (clock.said) status.say(clock.said);
    else status.hush();
  }
  if (!stage.draws) drawing();
  place.dataset.losses = String(stage.losses);
  stage.keep();
  ticking(clock.running);
}

// While the machine runs, what changes without an event (clock, position,
// speed) is written four times a second.
let ticker = 0;
/** @param {boolean} on */
function ticking(on) {
  if (on && !ticker) {
    ticker = setInterval(show, 250);
    if (!stage.draws) beat(performance.now());
  }
  if (!on && ticker) { clearInterval(ticker); ticker = 0; }
}

/**
 * Where no canvas runs there are no ticks: the page gives the time. A hidden
 * page pauses, and does not catch up in a burst.
 * @param {number} last
 */
function beat(last) {
  requestAnimationFrame((now) => {
    if (!ticker) return;
    stage.ask("tick", Math.min(now - last, 100) / 1000);
    beat(now);
  });
}

/** The scene as SVG in the page, where the frame cannot draw. Reading one in
 * takes tens of milliseconds, so no more than a few are drawn a second. */
let redraw = 0;
function drawing() {
  redraw ||= setTimeout(() => {
    redraw = 0;
    if (!stage.inner) return;
    const svg = new DOMParser().parseFromString(stage.ask("svg"), "image/svg+xml").documentElement;
    svg.setAttribute("role", "img");
    svg.setAttribute("aria-label", word("page.frame"));
    the("drawing").replaceChildren(document.adoptNode(svg));
    pointer.hold(the("drawing"));
    the("drawing").hidden = false;
  }, 150);
}

/**
 * Does something the stage may refuse, and says the refusal.
 * @param {() => void} deed
 */
function refuse(deed) {
  try { deed(); } catch (error) {
    if (!(error instanceof StageError)) throw error;
    status.say(error.message);
  }
}

// --- lessons ---------------------------------------------------------------

function lessonOpen() { return !the("lesson").hidden; }

/**
 * One thing after another, up to the first that is refused.
 * @param {...[string, string?]} deeds
 */
function act(...deeds) {
  refuse(() => {
    for (const [action, arg] of deeds) {
      if (action === "run") stage.ask("run");
      else stage.ask("lessonDo", action, arg ?? "");
    }
  });
  show();
}

function leave() {
  act(["close"]);
  listLessons(stage);
  the("building").focus();
}

/** Opens what the address asks for; what it asks in vain is said. */
function follow() {
  const want = wanted();
  if (!want.known) notice(word("page.view-unknown", { view: want.view }));
  rooms.go(want.screen);
  if (want.screen !== "machine") return;
  if (want.moment) {
    try { stage.ask("moment", want.moment); } catch (error) {
      if (!(error instanceof StageError)) throw error;
      notice(word("page.moment-bad", { reason: error.message }));
    }
    return;
  }
  if (!want.lesson) { if (lessonOpen()) leave(); return; }
  const open = /** @type {Lesson | null} */ (stage.ask("lesson"));
  if (open?.id === want.lesson && open.item === want.item) return;
  try { stage.ask("lessonDo", "open", `${want.lesson}/${want.item}`); } catch (error) {
    if (!(error instanceof StageError)) throw error;
    notice(word("page.lesson-unknown", { lesson: want.lesson }));
  }
}
addEventListener("hashchange", () => { if (stage.inner && !exhibiting) follow(); });

/** @param {string} text */
function notice(text) {
  say(the("notice"), text);
  the("notice").hidden = false;
}

carry(() => { stage.keep(); return stage.record; });

stage.addEventListener("opened", () => pointer.hold(frame.contentDocument?.querySelector("canvas")));

// --- theme, view, size, keys -------------------------------------------------

// The views for a lecture and for an exhibition have darker inks and a picture
// of their own choice.
const lecturing = wanted().view === "lecture";
const exhibiting = wanted().view === "exhibit";
const apart = lecturing || exhibiting;
const exhibition = exhibiting ? import("./exhibit.js").then(({ exhibit }) => exhibit(stage)) : null;
// What could not be fetched is asked for again.
exhibition?.catch(() => setTimeout(() => location.reload(), 10_000));
const asked = new URLSearchParams(location.hash.slice(1)).get("state") ?? "";
document.documentElement.dataset.view = wanted().view;
if (!exhibiting) theme((name) => { stage.set("theme", lecturing ? `${name}-projector` : name); near.draw(); });

const view = the("view");
const narrow = matchMedia("(width < 56rem)");
function chooseView() {
  if (apart) return;
  view.hidden = !narrow.matches;
  stage.set("view", narrow.matches ? radio(view) : "all");
  if (stage.inner) parts.lay();
}
view.addEventListener("change", chooseView);
narrow.addEventListener("change", chooseView);
chooseView();

fit(place, frame, (width, height, ratio) => stage.set("size", width, height, ratio));

const still = matchMedia("(prefers-reduced-motion: reduce)");
const chooseMotion = () => stage.set("motion", !still.matches);
still.addEventListener("change", chooseMotion);
chooseMotion();

/** Keys of the picture: they work only while it has the focus. */
/** @type {Record<string, () => void>} */
const keys = {
  " ": () => bar.toggle(),
  s: () => bar.step(),
  z: () => bar.back(),
  e: () => stage.ask("return"),
  a: () => bar.reset(),
  "+": () => bar.shift(1),
  "-": () => bar.shift(-1),
  i: lens.larger,
  o: lens.smaller,
  0: lens.whole,
  ArrowRight: () => goTo("+"),
  ArrowDown: () => goTo("+"),
  ArrowLeft: () => goTo("-"),
  ArrowUp: () => goTo("-"),
  "Shift+ArrowRight": () => lens.move(1, 0),
  "Shift+ArrowDown": () => lens.move(0, 1),
  "Shift+ArrowLeft": () => lens.move(-1, 0),
  "Shift+ArrowUp": () => lens.move(0, -1),
  Enter: () => stage.ask("press"),
  Escape: () => stage.ask("choose", ""),
};
/** Goes to the next part or the one before, and says what it is. @param {string} way */
function goTo(way) {
  stage.ask("choose", way);
  const { chosen } = stage.ask("clock");
  stage.ask("bring", chosen);
  status.say(capital(stage.ask("describe", chosen).state));
}
stage.addEventListener("key", (event) => {
  const key = /** @type {CustomEvent<string>} */ (event).detail;
  const deed = keys[key.length === 1 ? key.toLowerCase() : key];
  if (deed) refuse(deed);
});
stage.addEventListener("focus", (event) => {
  place.classList.toggle("focused", /** @type {CustomEvent<boolean>} */ (event).detail);
});

// --- loading -----------------------------------------------------------------

stage.addEventListener("progress", (event) => {
  const share = /** @type {CustomEvent<number>} */ (event).detail;
  /** @type {HTMLProgressElement} */ (the("progress")).value = share;
  say(the("waiting-text"), share < 1 ? word("page.loading-share", { percent: number(100 * share, 0) }) : word("page.starting"));
});
stage.addEventListener("failed", (event) => fail(word("page.failed", { reason: String(/** @type {CustomEvent} */ (event).detail?.message ?? "") })));

/** @param {string} text */
function fail(text) {
  ticking(false);
  if (exhibiting) return; // it is put right without a word
  the("waiting").hidden = false;
  the("waiting").classList.add("alone");
  the("progress").hidden = true;
  say(the("waiting-text"), text);
}

/** Offers the lesson again that the reader has written and tried. */
function ownLesson() {
  const own = recall("own-lesson");
  if (typeof own?.text !== "string") return;
  try { stage.set("screen", "writer", "use", JSON.stringify({ text: own.text })); } catch {
    delete stage.setting["writer/use"];
    keep("own-lesson", null);
  }
}

/** Puts the building back that the reader had, if it was one of their own. */
function comeBack() {
  const own = recall("building");
  if (typeof own?.text !== "string") return;
  try { stage.ask("load", own.text); } catch { keep("building", null); }
}

/** Reports to a college's system, and goes to where it says one was. @param {string[]} lessons */
async function reported(lessons) {
  const { report } = await import("./scorm.js");
  const at = () => { const lesson = stage.ask("lesson"); return lesson ? `${lesson.id}/${lesson.item}` : ""; };
  const was = report(results, lessons, ask(stage, "results", "asked", { lessons }), at) || `${lessons[0]}/1`;
  if (wanted().lesson === "") write(was.split("/")[0], Number(was.split("/")[1]) || 1);
}

async function open() {
  const exhibit = await exhibition;
  const brought = exhibit ? null : carried();
  await stage.open();
  the("waiting").hidden = true;
  if (exhibit) {
    exhibit.start();
    show();
    place.dataset.ready = "1";
    return;
  }
  if (stage.language !== language) notice(word("page.words-missing"));
  if (!stage.draws) notice(word("page.no-webgl"));
  choice.enable();
  noises.enable();
  ownLesson();
  listLessons(stage);
  comeBack();
  if (brought) refuse(() => stage.ask("restore", JSON.stringify(brought)));
  if (packed !== undefined) await reported(packed.split(" "));
  follow();
  if (lecturing) await (await import("./lecture.js")).lecture(stage, asked);
  show();
  place.dataset.ready = "1";
}

const runs = typeof WebAssembly === "object";
const ready = runs ? open() : Promise.reject(new StageError(word("page.no-wasm")));
// The first picture comes before what is kept for later.
if (packed === undefined) ready.catch(() => {}).then(async () => (await import("./offline.js")).offline(wanted().view === "alone"));
ready.catch((/** @type {Error} */ error) => fail(runs ? word("page.failed", { reason: error.message }) : error.message));

// --- the page object -----------------------------------------------------------

/** For people who embed the page; the README describes it. */
const wheelroom = Object.freeze({
  ready: ready.then(() => undefined),
  /** @returns {Snapshot} */
  snapshot: () => stage.ask("snapshot"),
  call: (/** @type {string} */ floor) => { stage.ask("call", String(floor)); show(); },
  run: () => { stage.ask("run"); show(); },
  pause: () => { stage.ask("pause"); show(); },
  advance: (/** @type {number} */ seconds) => { stage.ask("advance", Number(seconds)); show(); },
  reset: () => { stage.ask("reset"); show(); },
  load: (/** @type {string} */ yamlText) => {
    try { if (lessonOpen()) leave(); stage.ask("load", String(yamlText)); show(); } catch (error) {
      choice.fail(word("page.file-given"), /** @type {StageError} */ (error).errors);
      throw error;
    }
  },
});
Object.defineProperty(globalThis, "wheelroom", { value: wheelroom, enumerable: true });
// A failure is shown in the page; whoever awaits `ready` is told as well.
wheelroom.ready.catch(() => {});
