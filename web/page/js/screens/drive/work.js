// Work in pieces, so that the page answers between two of them.

/** Lets the page draw and answer. */
export function breathe() {
  return new Promise((resolve) => {
    const late = setTimeout(resolve, 100); // a page that is not seen draws no frames
    requestAnimationFrame(() => { clearTimeout(late); setTimeout(resolve); });
  });
}

/** What is being worked at. Whoever begins something new ends what was before. */
export class Work {
  #token = 0;
  busy = false;

  /** Ends what goes on, after its present piece. */
  stop() { this.#token += 1; this.busy = false; }

  /**
   * Does pieces one after another until one returns true or the work is
   * stopped. Resolves to whether it came to its end.
   * @param {(k: number) => boolean | void} piece
   */
  async run(piece) {
    this.stop();
    const mine = this.#token;
    this.busy = true;
    for (let k = 0; ; k++) {
      await breathe();
      if (mine !== this.#token) return false;
      if (piece(k)) break;
    }
    this.busy = false;
    return true;
  }
}
