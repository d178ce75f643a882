// Long work, done by a worker beside everything else. The program knows what is
// to be done and what comes of it; here the two are brought together.
import { StageError } from "./stage.js";

/** What the worker says: how far it is, what came of it, or why nothing did.
 * @typedef {{done?: number, of?: number, report?: object, error?: string}} Told */
/** What the program knows of the work. @typedef {{state: string, task: object | null}} Work */

/** @template {Work} W */
export class Errand {
  /**
   * @param {(step: {do: string, done?: number, of?: number, report?: object, reason?: string}) => W} ask the program
   * @param {(work: W) => void} show
   */
  constructor(ask, show) {
    this.ask = ask;
    this.show = show;
    /** @type {Worker | null} */
    this.worker = null;
  }

  /** Starts it, instead of the last. Where the program refuses, the last goes on. */
  start() {
    const work = this.ask({ do: "start" });
    this.#leave();
    if (work.task) {
      const worker = this.worker = new Worker(new URL("errand-worker.js", import.meta.url));
      worker.addEventListener("message", ({ data }) => this.#hear(worker, data));
      worker.addEventListener("error", (event) => this.#hear(worker, { error: event.message || "Worker" }));
      worker.postMessage(work.task);
    }
    this.show(work);
  }

  /** Breaks it off, for somebody who sees it. */
  cancel() { this.show(this.end()); }

  /** Breaks it off. */
  end() {
    this.#leave();
    return this.ask({ do: "cancel" });
  }

  #leave() {
    this.worker?.terminate();
    this.worker = null;
  }

  /** @param {Worker} worker @param {Told} told */
  #hear(worker, told) {
    if (this.worker !== worker) return;
    try {
      const work = told.done ? this.ask({ do: "done", done: told.done, of: told.of })
        : this.ask(told.report ? { do: "report", report: told.report } : { do: "failed", reason: told.error });
      // A program that was lost and is back knows of no work.
      if (work.state !== "running") this.#leave();
      this.show(work);
    } catch (error) {
      this.#leave();
      if (!(error instanceof StageError)) throw error;
      try { this.show(this.ask({ do: "failed", reason: error.message })); } catch { /* the program is lost, and the work with it */ }
    }
  }
}
