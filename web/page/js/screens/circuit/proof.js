// A proof of the circuit, made by a worker beside everything else: it can be
// watched and broken off, and a case it finds can be opened on the machine.
import { make, say, the } from "../../dom.js";
import { number, word } from "../../words.js";

/** @typedef {import("./types.js").Proving} Proving */
/** @typedef {import("./types.js").Told} Told */

const often = 200; // milliseconds between two looks at a proof under way

export class Proof {
  /**
   * @param {(deed: string, told?: object) => Proving} ask
   * @param {() => string} text of the building file
   * @param {() => void} leave goes to the machine
   */
  constructor(ask, text, leave) {
    this.ask = ask;
    this.text = text;
    this.timer = 0;
    /** @type {Worker | null} */
    this.worker = null;
    the("proof-start").addEventListener("click", () => this.#start());
    the("proof-cancel").addEventListener("click", () => { this.#end(); this.#tell(ask("cancel")); });
    the("proof-open").addEventListener("click", () => { ask("open"); leave(); });
  }

  show() { this.#tell(this.ask("look")); }

  #end() {
    this.worker?.terminate();
    this.worker = null;
  }

  /** Has a worker prove it, or, where there is none to be had, the program. */
  #start() {
    this.#end();
    const worker = new Worker(new URL("prover.js", import.meta.url));
    this.worker = worker;
    const instead = () => {
      if (this.worker !== worker) return;
      this.#end();
      this.#tell(this.ask("start"));
    };
    worker.addEventListener("error", instead);
    worker.addEventListener("message", ({ data }) => {
      if (this.worker !== worker) return;
      const told = /** @type {Told} */ (data);
      if (told.missing) return instead();
      if (told.done) {
        const now = this.ask("done", { done: told.done, of: told.of });
        if (now.state !== "running") this.#end(); // the program was lost and knows of no proof
        return this.#tell(now);
      }
      this.#end();
      this.#tell(told.report ? this.ask("report", { report: told.report }) : this.ask("failed", { reason: told.error ?? "" }));
    });
    this.#tell(this.ask("begin"));
    worker.postMessage(this.text());
  }

  /** @param {Proving} proving */
  #tell(proving) {
    clearTimeout(this.timer);
    const running = proving.state === "running";
    the("proof-cancel").hidden = !running;
    /** @type {HTMLButtonElement} */ (the("proof-start")).disabled = running;
    the("proof-progress").hidden = !running;
    const share = proving.of > 0 ? proving.done / proving.of : 0;
    /** @type {HTMLProgressElement} */ (the("proof-progress")).value = share;
    // Said in tenths, so that a voice does not count along.
    say(the("proof-state"), proving.state === "none" ? "" : running
      ? word("circuit.proof-running", { percent: number(Math.floor(share * 10) * 10, 0) })
      : word(`circuit.proof-${proving.state}`));
    const key = JSON.stringify(proving.said.concat(String(proving.stale)));
    const place = the("proof-said");
    if (place.dataset.key !== key) {
      place.dataset.key = key;
      place.replaceChildren(...(proving.stale && proving.said.length > 0 ? [make("p", { class: "hint" }, word("circuit.proof-stale"))] : []),
        ...proving.said.map((text) => make("p", {}, text)));
    }
    const open = the("proof-open");
    open.hidden = proving.scene === "" || proving.stale;
    say(open, proving.scene);
    if (running) this.timer = setTimeout(() => this.show(), often);
  }
}
