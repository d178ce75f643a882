// The stage as the page sees it: a frame that can be lost and put back.
//
// The frame holds the canvas and the program. Everything that must outlive it
// (building text, inputs, time, lesson) is kept here as a record, and a frame
// that was reloaded replays the record to the same state.

import { word } from "./words.js";

/** @typedef {import("./types.js").Snapshot} Snapshot */
/** @typedef {import("./types.js").FileError} FileError */

/** What the stage refused, with the faults of a file where there are any. */
export class StageError extends Error {
  /**
   * @param {string} message
   * @param {FileError[]} [errors]
   */
  constructor(message, errors = []) {
    super(message);
    this.name = "StageError";
    this.errors = errors;
  }
}

export class Stage extends EventTarget {
  /**
   * @param {HTMLIFrameElement} frame
   * @param {string} label what the canvas is called
   */
  constructor(frame, label) {
    super();
    this.label = label;
    this.frame = frame;
    /** @type {Record<string, (...args: unknown[]) => any> | null} */
    this.inner = null;
    /** @type {object | null} */
    this.record = null;
    /** What the program speaks: English where the page's words did not reach it. */
    this.language = "";
    /** Whether the frame draws; without WebGL2 it computes and the page draws SVG. */
    this.draws = false;
    /** Whether it may, where it can. */
    this.mayDraw = true;
    /** @type {Record<string, unknown[]>} what a new frame is told before it replays */
    this.setting = {};
    this.losses = 0;
    this.recent = 0; // losses of the last minute
  }

  /** Loads the program into the frame. Rejects with the reason in words. */
  async open() {
    const view = await loaded(this.frame);
    const { stage, draws } = await view.boot({
      label: this.label,
      mayDraw: this.mayDraw,
      bytes: Number(this.frame.dataset.bytes) || 0,
      progress: (/** @type {number} */ share) => this.dispatchEvent(new CustomEvent("progress", { detail: share })),
      changed: () => this.#changed(),
      lost: () => this.#reopen(),
      key: (/** @type {string} */ key) => this.dispatchEvent(new CustomEvent("key", { detail: key })),
      focus: (/** @type {boolean} */ on) => this.dispatchEvent(new CustomEvent("focus", { detail: on })),
    });
    if (!stage) throw new StageError(word("page.no-start"));
    this.inner = stage;
    this.draws = draws;
    this.language = stage.language;
    for (const [name, ...args] of Object.values(this.setting)) this.ask(String(name), ...args);
    if (this.record) this.ask("restore", JSON.stringify(this.record));
    this.dispatchEvent(new Event("opened"));
    this.#changed();
  }

  /**
   * Asks the program. An answer is a JSON value; a refusal throws.
   * @param {string} name
   * @param {...unknown} args
   * @returns {any}
   */
  ask(name, ...args) {
    if (!this.inner) throw new StageError(word("page.not-open"));
    const answer = JSON.parse(this.inner[name](...args));
    if (answer.error !== undefined) throw new StageError(answer.error, answer.errors);
    return answer.value;
  }

  /**
   * Sets something that a reloaded frame must be told again.
   * @param {string} name
   * @param {...unknown} args
   */
  set(name, ...args) {
    // What is set on a screen is told apart by its action.
    this.setting[name === "screen" ? args.slice(0, 2).join("/") : name] = [name, ...args];
    if (this.inner) this.ask(name, ...args);
  }

  /** Keeps the record of the run as it stands now. */
  keep() {
    if (this.inner) this.record = this.ask("record");
  }

  #changed() {
    this.dispatchEvent(new Event("changed"));
  }

  /** A frame whose graphics were lost is loaded again; three in a minute are too many. */
  async #reopen() {
    this.inner = null;
    this.losses += 1;
    this.recent += 1;
    setTimeout(() => { this.recent -= 1; }, 60_000);
    if (this.recent > 3) {
      this.dispatchEvent(new Event("failed"));
      return;
    }
    this.frame.contentWindow?.location.reload();
    try {
      await new Promise((resolve) => this.frame.addEventListener("load", resolve, { once: true }));
      await this.open();
    } catch (error) {
      this.dispatchEvent(new CustomEvent("failed", { detail: error }));
    }
  }
}

/**
 * The frame's window once its own scripts have run.
 * @param {HTMLIFrameElement} frame
 * @returns {Promise<any>}
 */
async function loaded(frame) {
  const view = /** @type {any} */ (frame.contentWindow);
  if (!view?.boot) await new Promise((resolve) => frame.addEventListener("load", resolve, { once: true }));
  const window = /** @type {any} */ (frame.contentWindow);
  if (!window?.boot) throw new StageError(word("page.no-frame"));
  return window;
}
