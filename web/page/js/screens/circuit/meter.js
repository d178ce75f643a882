// A voltmeter with two probes, set by pointing or from a list.
import { make, radio, say, the } from "../../dom.js";
import { word } from "../../words.js";

/** @typedef {import("./types.js").Facts} Facts */
/** @typedef {import("./types.js").Reading} Reading */

export class Meter {
  /**
   * @param {(probes: number[]) => Reading} read
   * @param {() => void} draw
   * @param {(node: number) => void} bring
   */
  constructor(read, draw, bring) {
    this.read = read;
    this.draw = draw;
    this.probes = [-1, -1];
    /** @type {Facts | null} */
    this.facts = null;
    this.choice = the("meter-probe");
    /** @type {HTMLSelectElement[]} */
    this.selects = [the("meter-first"), the("meter-second")];
    for (const [i, select] of this.selects.entries()) {
      select.addEventListener("change", () => {
        this.probes[i] = Number(select.value);
        this.show();
        this.draw();
        bring(this.probes[i]);
      });
    }
    the("meter-away").addEventListener("click", () => {
      this.probes = [-1, -1];
      radio(this.choice, "0");
      this.show();
      this.draw();
    });
  }

  /** @param {Facts} facts */
  lay(facts) {
    this.facts = facts;
    this.probes = [-1, -1];
    for (const select of this.selects) {
      select.replaceChildren(make("option", { value: -1 }, word("circuit.meter-nowhere")),
        ...facts.nodes.map(({ node, name }) => make("option", { value: node }, /^\d/.test(name) ? word("circuit.joint", { name }) : name)));
    }
  }

  /** Sets the probe whose turn it is, and gives the other its turn. @param {number} node */
  set(node) {
    const i = Number(radio(this.choice));
    this.probes[i] = node;
    radio(this.choice, String(1 - i));
    this.show();
    this.draw();
  }

  show() {
    for (const [i, select] of this.selects.entries()) select.value = String(this.probes[i]);
    const ready = this.probes.every((node) => node >= 0);
    const reading = ready ? this.read(this.probes) : { volts: word("circuit.meter-none"), between: [] };
    the("meter-reading").classList.toggle("none", !ready);
    say(the("meter-reading"), reading.volts);
    the("meter-between").replaceChildren(...(reading.between.length > 0 ? [make("h4", {}, word("circuit.meter-between"))] : []),
      ...reading.between.map(({ leaf, text }) => make("p", {}, word("circuit.meter-through", { name: this.facts?.leaves[leaf]?.name ?? "", current: text }))));
  }
}
