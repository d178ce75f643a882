// The view for an exhibition: a touch screen that nobody looks after. While
// nobody touches it the machine runs and explains itself; a visitor watches,
// predicts and sees why; left alone it goes back to its beginning.
import { Counts } from "./exhibit/counts.js";
import { idle } from "./exhibit/idle.js";
import { go, languages } from "./exhibit/languages.js";
import { latch } from "./exhibit/latch.js";
import { panel, plain, sentence } from "./exhibit/panel.js";
import { pixelsPerMM, sound, targetMM } from "./exhibit/settings.js";
import { staff } from "./exhibit/staff.js";
import { Store } from "./exhibit/store.js";
import { after, pace, reading } from "./exhibit/time.js";
import { heartbeat, watch, withoutGraphics } from "./exhibit/watch.js";
import { make, say, the } from "./dom.js";
import { ask, fragment } from "./screens.js";
import { word } from "./words.js";

/** @typedef {import("./stage.js").Stage} Stage */
/** @typedef {import("./lesson-types.js").Lesson} Lesson */
/** @typedef {import("./exhibit/panel.js").Scene} Scene */

const most = 3; // choices on a screen
const placeKept = "exhibit-place";
/** What is pointed out in the picture for a part, by the first word of its name
 * or the whole of it; other parts are not. @type {Record<string, string>} */
const instead = { stop: "car", door: "car", "relay.stop": "advance-up-ramp", "relay.slow": "motor" };

/**
 * Sets the view up around the stage. `start` is called once the stage is open.
 * @param {Stage} stage
 */
export async function exhibit(stage) {
  const root = document.documentElement;
  latch();
  heartbeat();
  document.body.append(...await fragment("exhibit"));

  const store = new Store("exhibit");
  const kept = store.read();
  let settings = sound(kept?.settings);
  const counts = new Counts(kept?.counts);
  const keep = () => store.write({ settings, counts: counts.rows });

  const tongues = languages();
  const home = () => tongues.find(({ tag }) => tag === settings.language) ?? tongues[0];

  /** @type {"attract" | "scene" | "choose"} */
  let at = "attract";
  /** @type {{attract: string, scenes: Scene[]}} */
  let list = { attract: "", scenes: [] };
  let visits = 0; // of this page, so that they do not all begin with the same scene
  /** @type {string[]} */
  let done = []; // scenes of this visit
  let holding = 0; // timer, while something is left to be read
  let expected = false; // the machine ought to be moving

  stage.mayDraw = !withoutGraphics();
  const guard = watch(stage, () => expected && !holding, (on) => { the("exhibit-wait").hidden = !on; });

  const offered = () => {
    const some = list.scenes.filter(({ id }) => !settings.off.includes(id));
    return some.length ? some : list.scenes;
  };
  /** @returns {Lesson | null} */
  const lesson = () => stage.ask("lesson");

  // --- the way through ---------------------------------------------------------

  /** @param {string} id */
  function open(id) {
    release();
    stage.ask("lessonDo", "open", `${id}/1`);
    light();
    at = id === list.attract ? "attract" : "scene";
    address(at === "scene" ? `#scene=${id}` : "");
    drive();
  }

  function begin() {
    const all = offered();
    done = [];
    open(all[visits % all.length].id);
    visits += 1;
    counts.begun(root.lang);
    keep();
  }

  /** @param {string} answer */
  function commit(answer) {
    stage.ask("lessonDo", "choose", answer);
    stage.ask("lessonDo", "commit", "");
    drive();
  }

  /** Up to three scenes that were not seen in this visit, the next ones first. */
  function others() {
    const all = offered();
    const from = Math.max(0, all.findIndex(({ id }) => id === done.at(-1)) + 1);
    const round = [...all.slice(from), ...all.slice(0, from)];
    const fresh = round.filter(({ id }) => !done.includes(id));
    return (fresh.length ? fresh : round).slice(0, most);
  }

  function choose() {
    release();
    at = "choose";
    expected = false;
    light();
    address("#choose");
    sides.choose(others());
  }

  /** Back to the beginning, in the language the exhibit begins in. */
  function reset() {
    release();
    desk.close();
    the("exhibit-idle").hidden = true;
    done = [];
    forget();
    if (!home().here) { go(home(), ""); return; }
    try { open(list.attract); } catch { guard.recover(); }
  }

  function again() {
    stage.ask("lessonDo", "again", "");
    drive();
  }

  /**
   * A deed of a visitor. While the frame is put back the program answers
   * nothing: then it is as if nobody had touched.
   * @template {unknown[]} A
   * @param {(...args: A) => void} deed
   */
  const touched = (deed) => (/** @type {A} */ ...args) => { if (stage.inner) deed(...args); };
  const sides = panel(the("exhibit-panel"), {
    begin: touched(begin), commit: touched(commit), open: touched(open), choose: touched(choose), again: touched(again), finish: touched(reset),
  });

  /** Lets nothing go on by itself for so many seconds. @param {number} seconds @param {() => void} then */
  function hold(seconds, then) {
    clearTimeout(holding);
    holding = after(seconds, () => { holding = 0; then(); });
  }
  function release() { clearTimeout(holding); holding = 0; }

  /** Points out the part that the sentence is about. */
  function light() {
    const part = lesson() ? ask(stage, "exhibit", "lit") : "";
    stage.ask("choose", instead[part] ?? instead[part.split(".")[0]] ?? "");
  }

  // What the picture has pointed out, and how many sentences have been told.
  let told = "";

  /** Brings the panel up to the lesson, and lets it go on where it goes on by itself. */
  function drive() {
    if (!stage.inner || list.attract === "" || at === "choose") return;
    const now = lesson();
    if (!now) { reset(); return; }
    if (at === "attract") sides.attract(now);
    else sides.scene(now, offered().length > 1);
    const stands = `${now.id} ${now.segment} ${now.state}`;
    const other = stands !== told;
    told = stands;
    if (other) light();
    const running = stage.ask("clock").running;
    expected = running;
    if (running || holding) return;
    switch (now.state) {
      case "asked":
        return;
      case "observe":
        ask(stage, "exhibit", "seen");
        done.push(now.id);
        counts.finished(now.id, root.lang);
        keep();
        drive();
        return;
      case "explained":
      case "done":
        if (at === "attract") hold(reading(plain(sentence(now))), () => { if (!desk.open) renewed(); open(list.attract); });
        return;
      case "paused":
        if (at === "scene" && other && now.notes.length) { hold(reading(plain(now.notes.slice(-1))), drive); return; }
    }
    stage.ask("run");
    expected = true;
  }

  /** The same, for whoever cannot be told what went wrong: the watch will see. */
  function driven() {
    try { drive(); } catch (error) { console.warn(String(error)); }
  }

  /** Between two rounds nobody minds if a newer version takes over. */
  function renewed() { import("./offline.js").then(({ renew }) => renew(), () => {}); }

  // --- address and language ------------------------------------------------------

  /** @param {string} hash */
  function address(hash) {
    if (location.hash !== hash) history.replaceState(null, "", location.pathname + location.search + hash);
  }

  function forget() {
    try { sessionStorage.removeItem(placeKept); } catch { /* nothing was kept */ }
    address("");
  }

  /** The page of another language goes on where this one was. @param {import("./exhibit/languages.js").Language} language */
  function speak(language) {
    try { sessionStorage.setItem(placeKept, JSON.stringify({ hash: location.hash, record: stage.inner ? stage.ask("record") : stage.record, done })); } catch { /* the scene begins again */ }
    go(language, location.hash);
  }

  function comeBack() {
    const { hash } = location;
    let place = null;
    try { place = JSON.parse(sessionStorage.getItem(placeKept) ?? "null"); } catch { /* none */ }
    try { sessionStorage.removeItem(placeKept); } catch { /* none */ }
    const want = new URLSearchParams(hash.slice(1));
    const id = want.get("scene") ?? "";
    if (place?.hash === hash && Array.isArray(place.done)) {
      done = place.done;
      try {
        stage.ask("restore", JSON.stringify(place.record));
        at = id ? "scene" : "attract";
        if (want.has("choose")) choose();
        if (lesson()) { drive(); return; }
      } catch { /* made anew below */ }
    }
    if (want.has("choose")) { open(list.attract); choose(); } else open(list.scenes.some((scene) => scene.id === id) ? id : list.attract);
  }

  if (tongues.length > 1) {
    the("exhibit-languages").append(...tongues.map((language) => make("button", {
      type: "button", lang: language.tag, "aria-current": language.here ? "true" : false, onclick: () => { if (!language.here) speak(language); },
    }, language.name)));
  } else the("exhibit-languages").hidden = true;

  // --- staff, idle, looks ------------------------------------------------------------

  const desk = staff({
    settings: () => settings, counts, languages: tongues, scenes: () => list.scenes, kept: () => store.kept,
    change(next) {
      settings = sound({ ...settings, ...next });
      keep();
      dress();
    },
    resetCounts() { counts.reset(); keep(); },
  });

  function dress() {
    root.style.setProperty("--target", `${(targetMM * pixelsPerMM(settings.inches)).toFixed(2)}px`);
    root.dataset.theme = settings.theme;
    stage.set("theme", `${settings.theme}-projector`);
  }
  addEventListener("resize", dress);

  const rest = idle(() => settings, {
    away: () => at !== "attract" || desk.open || !home().here,
    warn(left) {
      the("exhibit-idle").hidden = false;
      say(the("exhibit-idle-text"), word("exhibit.idle-text", { count: Math.ceil(left) }));
    },
    stay() { the("exhibit-idle").hidden = true; },
    over: reset,
  });

  // A touch anywhere on the picture begins as well.
  the("stage").addEventListener("click", touched(() => { if (at === "attract" && list.attract) begin(); }));

  dress();
  stage.set("screen", "exhibit", "mode", "{}");
  stage.set("speed", pace);

  let due = 0;
  stage.addEventListener("changed", () => { due ||= requestAnimationFrame(() => { due = 0; driven(); }); });

  return {
    start() {
      list = ask(stage, "exhibit", "scenes");
      stage.frame.inert = true;
      rest.touched();
      comeBack();
      // Should ever a word from the program be missed, it is not missed for long.
      setInterval(driven, 1000);
    },
  };
}
