// What if: a change tried on a copy of the lift, beside a copy without it. The
// lift itself stays as it is. What guards against something is never bridged;
// the answer says what must be made safe instead.
import { make, radio, say, the } from "../../dom.js";
import { number, word } from "../../words.js";

/** @typedef {import("./types.js").Facts} Facts */
/** @typedef {import("./types.js").Target} Target */
/** @typedef {import("./types.js").Tried} Tried */

export class Trial {
  /**
   * @param {(question: {leaf: number, call: string, closed: boolean, seconds: number}) => Tried} answer
   * @param {() => void} draw
   */
  constructor(answer, draw) {
    this.draw = draw;
    /** @type {Facts | null} */
    this.facts = null;
    /** @type {HTMLSelectElement} */
    this.what = the("trial-what");
    this.what.addEventListener("change", () => this.#chosen());
    the("trial-how").addEventListener("change", () => this.#clear());
    the("trial-go").addEventListener("click", () => {
      const [kind, id] = this.what.value.split(/:(.*)/s);
      this.#show(answer({
        leaf: kind === "leaf" ? Number(id) : -1, call: kind === "call" ? id : "",
        closed: radio(the("trial-how")) === "closed", seconds: Number(/** @type {HTMLSelectElement} */ (the("trial-seconds")).value),
      }));
      the("trial-result").scrollIntoView({ block: "nearest" });
    });
  }

  /** @returns {Target | null} */
  get target() {
    const [kind, id] = this.what.value.split(/:(.*)/s);
    return kind === "leaf" ? { part: "", leaf: Number(id) } : kind === "call" ? { part: id, leaf: -1 } : null;
  }

  /** @param {Facts} facts */
  lay(facts) {
    this.facts = facts;
    this.what.replaceChildren(
      make("optgroup", { label: word("circuit.trial-calls") }, ...facts.calls.toReversed().map(({ id, name }) => make("option", { value: `call:${id}` }, name))),
      make("optgroup", { label: word("circuit.trial-contacts") }, ...facts.leaves.flatMap(({ name, line, moves }, i) =>
        (moves ? [make("option", { value: `leaf:${i}` }, word("circuit.trial-contact", { line, name }))] : []))));
    this.#chosen(false);
  }

  /** @param {number} leaf */
  choose(leaf) {
    if (!this.facts?.leaves[leaf].moves) return;
    this.what.value = `leaf:${leaf}`;
    this.#chosen();
  }

  #chosen(draw = true) {
    const call = this.what.value.startsWith("call:");
    say(the("trial-open"), word(call ? "circuit.trial-taken" : "circuit.trial-open"));
    say(the("trial-closed"), word(call ? "circuit.trial-made" : "circuit.trial-closed"));
    if (call) radio(the("trial-how"), "closed");
    this.#clear();
    if (draw) this.draw();
  }

  #clear() { the("trial-result").replaceChildren(); }

  /** @param {Tried} tried */
  #show(tried) {
    const place = the("trial-result");
    if (tried.refused) {
      place.replaceChildren(make("p", { class: "refused", role: "status" }, tried.sentence));
      return;
    }
    const sides = ["circuit.trial-as-is", "circuit.trial-with"];
    const head = (/** @type {string[]} */ ids) => make("thead", {}, make("tr", {}, ...ids.map((id) => make("th", { scope: "col" }, word(id)))));
    place.replaceChildren(
      make("p", { class: "why-sentence", role: "status" }, tried.sentence),
      make("p", {}, tried.first),
      ...tried.notes.flatMap((note, i) => (note ? [make("p", { class: "notice" }, make("b", {}, word(sides[i])), make("br"), note)] : [])),
      ...(tried.rows.length > 0 ? [make("table", {},
        make("caption", { class: "unseen" }, word("circuit.trial-rows")),
        head(["circuit.trial-time", ...sides]),
        make("tbody", {}, ...tried.rows.map((row) => (row.asIs === row.with
          ? make("tr", { class: "both" }, make("td", {}, number(row.time_s, 2)), make("td", { colspan: 2 }, row.asIs))
          : make("tr", {}, make("td", {}, number(row.time_s, 2)), make("td", {}, row.asIs), make("td", {}, row.with))))))] : []),
      ...(tried.more > 0 ? [make("p", { class: "hint" }, word("circuit.trial-more", { count: tried.more }))] : []),
      ...(tried.ends.length > 0 ? [make("table", {},
        make("caption", {}, word("circuit.trial-ends")),
        head(["circuit.trial-part", ...sides]),
        make("tbody", {}, ...tried.ends.map((end) => make("tr", {}, make("th", { scope: "row" }, end.what), make("td", {}, end.asIs), make("td", {}, end.with)))))] : []));
  }
}
