// A show of hands: counted by keys, hidden until revealed, counted a second
// time after discussion. It keeps numbers and nothing about anybody.
import { make } from "../dom.js";
import { word } from "../words.js";

/** @typedef {import("../lesson-types.js").Lesson} Lesson */

/**
 * @typedef {object} Count
 * @property {boolean} open
 * @property {boolean} revealed
 * @property {number[][]} rounds by round, hands for each lettered answer
 */

const most = 9; // answers that have a digit

export class Hands {
  /**
   * @param {() => Count} state
   * @param {() => Lesson | null} lesson
   * @param {() => void} changed
   */
  constructor(state, lesson, changed) {
    this.state = state;
    this.lesson = lesson;
    this.changed = changed;
  }

  /** @returns {Count} */
  static none() { return { open: false, revealed: false, rounds: [] }; }

  /** What bears a letter in the open item. */
  get offered() {
    const lesson = this.lesson();
    const list = lesson?.options?.length ? lesson.options : lesson?.task?.parts ?? [];
    return list.slice(0, most);
  }

  /** Whether there is a count that is not shown yet. */
  get hidden() { return this.state().open && !this.state().revealed && this.state().rounds.some((round) => round.some(Boolean)); }

  /** The answer most hands went to in the last count, "" for none. */
  get majority() {
    const last = this.state().rounds.at(-1);
    if (!last || !last.some(Boolean)) return "";
    return this.offered[last.indexOf(Math.max(...last))]?.id ?? "";
  }

  open() {
    if (this.lesson()?.state !== "asked" || this.offered.length === 0) return false;
    const state = this.state();
    state.open = true;
    if (state.rounds.length === 0) state.rounds.push(this.offered.map(() => 0));
    return true;
  }

  again() {
    if (!this.open()) return false;
    const state = this.state();
    if (state.rounds.length < 2) state.rounds.push(this.offered.map(() => 0));
    state.revealed = false;
    return true;
  }

  reveal() { this.state().revealed = !this.state().revealed; }

  /**
   * Counts a hand; false where none is counted.
   * @param {number} place
   * @param {number} by
   */
  count(place, by) {
    const round = this.state().rounds.at(-1);
    if (!this.state().open || this.lesson()?.state !== "asked" || !round || place >= round.length) return false;
    round[place] = Math.max(0, round[place] + by);
    this.changed();
    return true;
  }

  /** The count as it may be shown now. */
  draw() {
    const { open, revealed, rounds } = this.state();
    if (!open) return [];
    const sum = (rounds.at(-1) ?? []).reduce((a, b) => a + b, 0);
    if (!revealed) {
      return [make("p", {}, word(rounds.length > 1 ? "lecture.second" : "lecture.first")),
        make("p", { class: "hint" }, word("lecture.counted", { count: sum }))];
    }
    return [this.table()];
  }

  /** The counts of both rounds beside their letters. */
  table() {
    const { rounds } = this.state();
    const top = Math.max(1, ...rounds.flat());
    const bar = (/** @type {number} */ value, /** @type {string} */ kind) => {
      const svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
      svg.setAttribute("viewBox", "0 0 100 10");
      svg.setAttribute("preserveAspectRatio", "none");
      svg.setAttribute("aria-hidden", "true");
      const rect = document.createElementNS("http://www.w3.org/2000/svg", "rect");
      for (const [name, v] of Object.entries({ x: 1, y: 1, width: Math.max(0.5, 98 * value / top), height: 8, class: kind })) rect.setAttribute(name, String(v));
      svg.append(rect);
      return svg;
    };
    const head = rounds.length > 1 ? [make("thead", {}, make("tr", {}, make("td", {}),
      ...[word("lecture.first"), word("lecture.second")].map((text) => make("th", { scope: "col", colspan: "2" }, text))))] : [];
    return make("table", {}, ...head, make("tbody", {}, ...this.offered.map((_, i) => make("tr", {},
      make("th", { scope: "row" }, String.fromCharCode(65 + i)),
      ...rounds.flatMap((round, k) => [make("td", { class: "count" }, String(round[i])), make("td", {}, bar(round[i], k === rounds.length - 1 ? "second" : "first"))])))));
  }
}
