// The status line: one polite sentence a causal step, at most one a second.
import { say } from "./dom.js";

const quiet = 1000; // milliseconds between two sentences

export class Status {
  /** @param {Element} element */
  constructor(element) {
    this.element = element;
    this.next = "";
    this.last = -Infinity;
    this.timer = 0;
  }

  /**
   * Says a sentence now or when the last one has had its second; of several
   * that wait, the newest is said.
   * @param {string} text
   */
  say(text) {
    const wait = this.last + quiet - performance.now();
    if (wait <= 0) {
      this.#speak(text);
      return;
    }
    this.next = text;
    if (!this.timer) this.timer = setTimeout(() => this.#speak(this.next), wait);
  }

  /** Takes back what was said, and what waits to be. */
  hush() {
    clearTimeout(this.timer);
    this.timer = 0;
    say(this.element, "");
  }

  /** @param {string} text */
  #speak(text) {
    clearTimeout(this.timer);
    this.timer = 0;
    this.last = performance.now();
    say(this.element, text);
  }
}
