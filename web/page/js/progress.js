// What the learner has done, kept in this browser only. The program says what
// it means; here it is held, written out to a file, taken in again and erased.
// Where nothing may be kept it lasts as long as the page.
import { keep, recall } from "./kept.js";
import { ask } from "./screens.js";
import { StageError } from "./stage.js";
import { word } from "./words.js";

/** @typedef {import("./stage.js").Stage} Stage */
/** @typedef {{id: string, title: string, group: string, level: string, items: number, reviews: number, language?: string, answered: number, right: number, finished: string, due: boolean, next: string, reviewed: number}} Learned */
/** @typedef {{id: string, lessons: Learned[]}} Group */

const name = "progress";
const was = recall(name);
let kept = typeof was === "string" ? was : "";

/** The day where the learner is. */
export function today() {
  const now = new Date();
  const two = (/** @type {number} */ n) => String(n).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** @param {string} text */
function hold(text) {
  kept = text;
  keep(name, text || null);
}

/**
 * Asks with what is kept; if that has been damaged, as if there were nothing.
 * @param {Stage} stage
 * @param {string} action
 */
function asked(stage, action) {
  try { return ask(stage, "lessons", action, { kept, today: today() }); } catch (error) {
    if (!(error instanceof StageError) || !kept) throw error;
    kept = "";
    return ask(stage, "lessons", action, { kept, today: today() });
  }
}

/** The course and what has been done in it. @param {Stage} stage @returns {Group[]} */
export const course = (stage) => asked(stage, "list");

/** Keeps what became of the open lesson's items so far. @param {Stage} stage */
export function note(stage) { hold(asked(stage, "note")); }

/** Takes in what `written` gave; a text that is something else is refused. @param {Stage} stage @param {string} text */
export function bring(stage, text) { hold(ask(stage, "lessons", "read", { text })); }

/**
 * A lesson's title, with a word on its language where that is not the page's:
 * lessons that no one has translated are told in English.
 * @param {{title: string, language?: string}} lesson
 */
export const titled = ({ title, language }) => (language ? word("page.lesson-in-english", { title }) : title);

/** What is kept, "" for nothing. */
export const written = () => kept;

export function erase() { hold(""); }
