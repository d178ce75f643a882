// The text view: the file itself, with what is wrong at its line as one types.
import { make } from "../../dom.js";
import { word } from "../../words.js";
import { told } from "./row.js";

/** @typedef {import("./types.js").Fault} Fault */
/** @typedef {import("./types.js").Sheet} Sheet */
/** @typedef {import("./row.js").Do} Do */

const pause = 250; // milliseconds without a key before the text is read

export class Text {
  /**
   * @param {HTMLElement} place
   * @param {(text: string) => void} changed
   * @param {Do} act
   */
  constructor(place, changed, act) {
    this.act = act;
    this.area = /** @type {HTMLTextAreaElement} */ (place.querySelector("textarea"));
    this.lines = /** @type {HTMLElement} */ (place.querySelector(".yaml-lines"));
    this.marks = /** @type {HTMLElement} */ (place.querySelector(".yaml-marks"));
    this.list = /** @type {HTMLElement} */ (place.querySelector(".yaml-faults"));
    this.timer = 0;
    this.read = changed;
    this.area.addEventListener("input", () => {
      clearTimeout(this.timer);
      this.timer = setTimeout(() => this.flush(), pause);
      this.#grow();
      this.#mark([]);
    });
    this.area.addEventListener("change", () => this.flush());
    this.area.addEventListener("scroll", () => { this.marks.scrollLeft = this.area.scrollLeft; });
  }

  /** Reads what was typed last. */
  flush() {
    clearTimeout(this.timer);
    if (this.timer) this.read(this.area.value);
    this.timer = 0;
  }

  /** @param {Sheet} sheet */
  show(sheet) {
    if (this.area.value !== sheet.text && !this.timer) {
      const caret = this.area.selectionStart;
      this.area.value = sheet.text;
      this.area.setSelectionRange(caret, caret);
    }
    this.#grow();
    this.#mark(sheet.faults);
    const key = JSON.stringify(sheet.faults);
    if (this.list.dataset.key === key) return;
    this.list.dataset.key = key;
    this.list.replaceChildren(...sheet.faults.map((fault) => make("li", {}, told(fault, this.act,
      make("button", { type: "button", class: "line", onclick: () => this.go(fault) }, word("editor.to-line", { line: fault.line })), " "))));
  }

  /** Line numbers beside, and as many rows as there are lines. */
  #grow() {
    const count = this.area.value.split("\n").length;
    if (this.lines.childElementCount === count) return;
    this.area.rows = count + 1;
    this.lines.replaceChildren(...Array.from({ length: count }, (_, i) => make("span", {}, `${i + 1}\n`)));
  }

  /** Behind the text stand the same lines, unseen, with what is wrong at their ends.
   * @param {Fault[]} faults */
  #mark(faults) {
    /** @type {Map<number, Fault[]>} */
    const at = new Map();
    for (const fault of faults) at.set(fault.line, [...(at.get(fault.line) ?? []), fault]);
    this.marks.replaceChildren(...this.area.value.split("\n").map((line, i) => {
      const here = at.get(i + 1);
      if (!here) return make("span", {}, `${line}\n`);
      const kind = here.some((fault) => !fault.warning) ? "wrong" : "warned";
      return make("span", { class: kind }, line, make("span", { class: "at-line" }, `   ${here.map((fault) => fault.text).join(" ")}`), "\n");
    }));
    this.marks.scrollLeft = this.area.scrollLeft;
    for (const [i, number] of [...this.lines.children].entries()) {
      number.className = at.has(i + 1) ? (at.get(i + 1)?.some((fault) => !fault.warning) ? "wrong" : "warned") : "";
    }
  }

  /** Puts the caret where a fault is. @param {Fault} fault */
  go(fault) {
    const before = this.area.value.split("\n").slice(0, fault.line - 1).join("\n").length + (fault.line > 1 ? 1 : 0);
    const caret = before + Math.max(fault.column - 1, 0);
    this.area.focus();
    this.area.setSelectionRange(caret, caret);
  }
}
