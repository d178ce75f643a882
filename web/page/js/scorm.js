// Reports to a college's system by SCORM 1.2: status, score, answers, and
// where to go on. Where there is no such system everything works all the same.

/** @typedef {import("./results.js").Result} Result */

/** The most characters that SCORM 1.2 lets one keep. */
const mostKept = 4096;

/** The system's API: of this window, the windows around it, or its opener's. */
function api() {
  const seek = (/** @type {any} */ window) => {
    for (let hops = 0; window && hops < 8; hops++) {
      try { if (window.API) return window.API; } catch { return null; } // another origin
      if (window === window.parent) return null;
      window = window.parent;
    }
    return null;
  };
  return seek(window) ?? (window.opener ? seek(window.opener) : null);
}

/** Seconds as SCORM 1.2 spells a span: HHHH:MM:SS.SS. @param {number} s */
export function span(s) {
  const whole = Math.floor(s), two = (/** @type {number} */ n) => String(n).padStart(2, "0");
  return `${String(Math.floor(whole / 3600)).padStart(4, "0")}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}.${two(Math.floor(100 * (s - whole)))}`;
}

/**
 * What is kept, no longer than may be kept: each answer as lesson, item,
 * right, sureness and tries.
 * @param {Result[]} list
 * @param {string} at
 */
export function suspend(list, at) {
  const names = [...new Set(list.map((r) => r.lesson))];
  const answers = list.map((r) => `${names.indexOf(r.lesson)}.${r.item}.${r.right}${r.seen}${r.sure}.${Math.min(r.tries, 99)}`);
  let text = "";
  // Should even that be too long, the oldest answers are let go; the system has them.
  do text = JSON.stringify({ v: 1, at, names, answers: answers.join(" ") });
  while (text.length > mostKept && answers.shift());
  return text;
}

/** @param {string} text @returns {{at: string, list: Partial<Result>[]}} */
export function resume(text) {
  try {
    const { v, at, names, answers } = JSON.parse(text);
    if (v !== 1) return { at: "", list: [] };
    return { at: String(at), list: String(answers).split(" ").filter(Boolean).map((answer) => {
      const [lesson, item, marks, tries] = answer.split(".");
      return { lesson: names[Number(lesson)], item: Number(item), right: Number(marks[0]), seen: Number(marks[1]), sure: Number(marks[2]), tries: Number(tries) };
    }) };
  } catch { return { at: "", list: [] }; }
}

/**
 * Begins to report.
 * @param {import("./results.js").Results} results
 * @param {string[]} lessons those that count
 * @param {Record<string, number>} asked items that ask something, by lesson
 * @param {() => string} at where the reader is, as an address spells it
 * @returns {string} where to go on, "" for the beginning
 */
export function report(results, lessons, asked, at) {
  const system = api();
  if (!system || String(system.LMSInitialize("")) !== "true") return "";
  const begun = performance.now();
  const all = lessons.reduce((sum, id) => sum + (asked[id] ?? 0), 0);
  const had = resume(String(system.LMSGetValue("cmi.suspend_data") ?? ""));
  for (const result of had.list) results.list.push(/** @type {Result} */ ({ attempt: results.attempt, title: "", kind: "", prediction: "", said: "", outcome: "", happened: "", seconds: 0, ...result }));
  const set = (/** @type {string} */ name, /** @type {string | number} */ value) => system.LMSSetValue(name, String(value));
  if (!["completed", "passed"].includes(String(system.LMSGetValue("cmi.core.lesson_status")))) set("cmi.core.lesson_status", "incomplete");
  set("cmi.core.score.min", 0);
  set("cmi.core.score.max", 100);
  let interactions = Number(system.LMSGetValue("cmi.interactions._count")) || 0;

  const where = () => {
    set("cmi.core.lesson_location", at());
    set("cmi.suspend_data", suspend(results.list, at()));
  };

  results.addEventListener("result", (event) => {
    const r = /** @type {CustomEvent<Result>} */ (event).detail;
    const mine = results.list.filter(({ lesson }) => lessons.includes(lesson));
    const n = `cmi.interactions.${interactions++}`;
    set(`${n}.id`, `${r.lesson}_${r.item}`);
    set(`${n}.type`, "fill-in");
    set(`${n}.student_response`, r.prediction.slice(0, 255));
    set(`${n}.correct_responses.0.pattern`, r.outcome.slice(0, 255));
    set(`${n}.result`, r.right ? "correct" : "wrong");
    set(`${n}.latency`, span(r.seconds));
    set("cmi.core.score.raw", all > 0 ? Math.round(100 * mine.filter(({ right }) => right).length / all) : 0);
    if (mine.length >= all) set("cmi.core.lesson_status", "completed");
    where();
    system.LMSCommit("");
  });

  let over = false;
  addEventListener("pagehide", () => {
    if (over) return;
    over = true;
    where();
    set("cmi.core.session_time", span((performance.now() - begun) / 1000));
    set("cmi.core.exit", results.list.length >= all ? "" : "suspend");
    system.LMSCommit("");
    system.LMSFinish("");
  });
  return had.at;
}
