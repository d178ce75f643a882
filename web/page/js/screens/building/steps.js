// What was before and after: the texts of a building, one a step. They are
// kept in the browser, so that a reload loses nothing.
import { keep, recall } from "../../kept.js";

const most = 60; // steps that are kept

export class Steps {
  constructor() {
    /** @type {string[]} */
    this.texts = [];
    this.at = -1;
    this.joins = ""; // what the newest step was about: more of the same joins it
  }

  /** Takes up what was kept, if it belongs to the building on the stage.
   * @param {string} onStage text of that building */
  resume(onStage) {
    const kept = recall("editor");
    if (!Array.isArray(kept?.texts) || kept.onStage !== onStage || typeof kept.texts[kept.at] !== "string") return false;
    this.texts = kept.texts.map(String);
    this.at = kept.at;
    return true;
  }

  /** @param {string} onStage */
  keep(onStage) { keep("editor", { texts: this.texts, at: this.at, onStage }); }

  get text() { return this.texts[this.at] ?? ""; }

  /**
   * @param {string} text
   * @param {string} [about] changes about the same thing, one after the other, are one step; "" is a step of its own
   */
  add(text, about = "") {
    if (text === this.text && this.at >= 0) return;
    const joins = about !== "" && about === this.joins && this.at === this.texts.length - 1 && this.at > 0;
    this.texts.length = joins ? this.at : this.at + 1;
    this.texts.push(text);
    if (this.texts.length > most) this.texts.shift();
    this.at = this.texts.length - 1;
    this.joins = about;
  }

  /** The next step about the same thing is a new one. */
  part() { this.joins = ""; }

  get canUndo() { return this.at > 0; }
  get canRedo() { return this.at < this.texts.length - 1; }

  /** @param {-1 | 1} by */
  move(by) {
    this.at = Math.min(Math.max(this.at + by, 0), this.texts.length - 1);
    this.joins = "";
    return this.text;
  }
}
