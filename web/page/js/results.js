// What became of each item: prediction, sureness, outcome, tries and time. It
// is watched here and kept in this browser under a random code; no name is
// asked for, and nothing is sent anywhere.
import { keep, recall } from "./kept.js";

/** @typedef {import("./lesson-types.js").Lesson} Lesson */

/**
 * @typedef {object} Result
 * @property {string} attempt a random code
 * @property {string} lesson
 * @property {number} item
 * @property {string} title
 * @property {string} kind
 * @property {string} prediction as the machine spells it
 * @property {string} said the prediction in words
 * @property {number} sure 0 not said to 3 certain
 * @property {string} outcome
 * @property {string} happened the outcome in words
 * @property {number} right 1 or 0
 * @property {number} seen 1 or 0: what the learner saw was what happened
 * @property {number} tries how often the item has been answered
 * @property {number} seconds from the question to the commit, of the last try
 */

export const columns = /** @type {const} */ (["attempt", "lesson", "item", "title", "kind", "prediction", "said", "sure", "outcome", "happened", "right", "seen", "tries", "seconds"]);

/** A random code for one attempt. */
export const code = () => [...crypto.getRandomValues(new Uint8Array(4))].map((byte) => byte.toString(16).padStart(2, "0")).join("");

export class Results extends EventTarget {
  /** @param {string} store where they are kept, "" for nowhere */
  constructor(store) {
    super();
    this.store = store;
    const had = store ? recall(store) : null;
    /** @type {Result[]} */
    this.list = Array.isArray(had?.list) ? had.list : [];
    this.attempt = typeof had?.attempt === "string" ? had.attempt : code();
    this.open = ""; // item whose question stands
    this.since = 0;
    this.took = 0;
    this.noted = "";
  }

  /** Looks at the open lesson. @param {Lesson | null} lesson */
  watch(lesson) {
    if (!lesson) { this.open = this.noted = ""; return; }
    const item = `${lesson.id}/${lesson.item}`;
    if (lesson.state === "asked" && this.open !== item) { this.open = item; this.since = performance.now(); this.noted = ""; }
    if (lesson.committed && this.open === item) { this.took = (performance.now() - this.since) / 1000; this.open = ""; }
    if (lesson.state !== "explained" || lesson.kind === "worked" || !lesson.outcome || this.noted === item) return;
    this.noted = item;
    const old = this.list.find((r) => r.lesson === lesson.id && r.item === lesson.item);
    // An item that is shown again or comes back after a reload was answered once.
    if (this.took === 0 && old) return;
    /** @type {Result} */
    const result = {
      attempt: this.attempt, lesson: lesson.id, item: lesson.item, title: lesson.itemTitle, kind: lesson.kind,
      prediction: lesson.chosen, said: lesson.said, sure: lesson.sure, outcome: lesson.outcome.id, happened: lesson.outcome.text,
      right: Number(lesson.verdict?.right ?? false), seen: Number(lesson.observed?.right ?? false),
      tries: (old?.tries ?? 0) + 1, seconds: Math.round(10 * this.took) / 10,
    };
    this.took = 0;
    if (old) Object.assign(old, result);
    else this.list.push(result);
    this.#keep();
    this.dispatchEvent(new CustomEvent("result", { detail: result }));
  }

  /** Forgets everything; what comes next has another code. */
  erase() {
    this.list = [];
    this.attempt = code();
    if (this.store) keep(this.store, null);
  }

  #keep() { if (this.store) keep(this.store, { attempt: this.attempt, list: this.list }); }
}

/**
 * Results as CSV (RFC 4180).
 * @param {Result[]} list
 */
export function csv(list) {
  const cell = (/** @type {string | number} */ value) => {
    if (typeof value === "number") return String(value);
    // A table program would take these first letters for a formula.
    const text = /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
    return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
  };
  return [columns.join(","), ...list.map((result) => columns.map((name) => cell(result[name])).join(","))].join("\r\n") + "\r\n";
}

/**
 * Reads what csv has written; null for anything else.
 * @param {string} text
 * @returns {Result[] | null}
 */
export function read(text) {
  const rows = table(text.replace(/^\uFEFF/, ""));
  if (!rows || rows.length === 0 || rows[0].join() !== columns.join() || rows.some((row) => row.length !== columns.length)) return null;
  const numbers = ["item", "sure", "right", "seen", "tries", "seconds"];
  const list = rows.slice(1).map((row) => Object.fromEntries(columns.map((name, i) =>
    [name, numbers.includes(name) ? Number(row[i]) : row[i].replace(/^'(?=[=+\-@\t\r])/, "")])));
  if (list.some((result) => numbers.some((name) => !Number.isFinite(result[name])))) return null;
  return /** @type {Result[]} */ (/** @type {unknown} */ (list));
}

/** The cells of a CSV text, null where a quote is left open. @param {string} text */
function table(text) {
  const rows = [[""]];
  let quoted = false;
  for (let i = 0; i < text.length; i++) {
    const c = text[i];
    const row = rows[rows.length - 1];
    if (quoted) {
      if (c !== '"') row[row.length - 1] += c;
      else if (text[i + 1] === '"') { row[row.length - 1] += c; i++; } else quoted = false;
    } else if (c === '"') quoted = true;
    else if (c === ",") row.push("");
    else if (c === "\n") rows.push([""]);
    else if (c !== "\r") row[row.length - 1] += c;
  }
  if (quoted) return null;
  if (rows[rows.length - 1].join("") === "") rows.pop();
  return rows;
}

/** What this browser keeps of its own reader. */
export const own = new Results("results");
