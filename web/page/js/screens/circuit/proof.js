// A proof of the circuit, made by a worker beside everything else: it can be
// watched and broken off, and a case it finds can be opened on the machine.
import { make, say, the } from "../../dom.js";
import { Errand } from "../../errand.js";
import { number, word } from "../../words.js";

/** @typedef {import("./types.js").Proving} Proving */

export class Proof {
  /**
   * @param {(step: object) => Proving} ask
   * @param {() => void} leave goes to the machine
   */
  constructor(ask, leave) {
    this.ask = ask;
    const errand = new Errand(ask, (proving) => this.#tell(proving));
    the("proof-start").addEventListener("click", () => errand.start());
    the("proof-cancel").addEventListener("click", () => errand.cancel());
    the("proof-open").addEventListener("click", () => { ask({ do: "open" }); leave(); });
  }

  show() { this.#tell(this.ask({ do: "look" })); }

  /** @param {Proving} proving */
  #tell(proving) {
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
  }
}
