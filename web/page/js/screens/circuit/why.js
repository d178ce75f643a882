// Why a relay is in or out, a lamp lit or dark, a contact open or closed: one
// sentence, the way of the current or what blocks it, and from each link of it
// on to the next question.
import { make, say, the } from "../../dom.js";
import { word } from "../../words.js";

/** @typedef {import("./types.js").Because} Because */
/** @typedef {import("./types.js").Facts} Facts */
/** @typedef {import("./types.js").Reason} Reason */
/** @typedef {import("./types.js").Target} Target */

const still = matchMedia("(prefers-reduced-motion: reduce)");
const stepMS = 400; // from one part of the current's way to the next

export class Why {
  /**
   * @param {(target: Target) => Because} answer
   * @param {() => void} draw
   * @param {(leaves: number[]) => void} bring
   */
  constructor(answer, draw, bring) {
    this.answer = answer;
    this.draw = draw;
    this.bring = bring;
    /** @type {Target | null} */
    this.target = null;
    /** @type {Target[]} */
    this.trail = [];
    /** @type {Facts | null} */
    this.facts = null;
    this.key = "";
    this.lit = 0; // steps of the current's way that are lit so far; 0: all
    this.timer = 0;
    /** @type {HTMLSelectElement} */
    this.select = the("why-target");
    this.select.addEventListener("change", () => { this.trail = []; this.ask(this.select.value ? { part: this.select.value, leaf: -1 } : null, false); });
    the("why-back").addEventListener("click", () => this.ask(this.trail.pop() ?? null, false));
  }

  /** @param {Facts} facts */
  lay(facts) {
    this.facts = facts;
    const chosen = this.select.value;
    this.select.replaceChildren(make("option", { value: "" }, word("circuit.why-none")), ...facts.targets.map(({ kind, parts }) =>
      make("optgroup", { label: word(`circuit.why-${kind}`) }, ...(parts ?? []).map(({ id, name }) => make("option", { value: id }, name)))));
    if ([...this.select.options].some((option) => option.value === chosen)) this.select.value = chosen;
    else this.target = null;
    if (this.target && this.target.part === "" && this.target.leaf >= facts.leaves.length) this.target = null;
    this.trail = [];
  }

  /**
   * @param {Target | null} target
   * @param {boolean} [on] the present question can be gone back to
   */
  ask(target, on = true) {
    if (on && this.target) this.trail.push(this.target);
    this.target = target;
    this.select.value = target?.part ?? "";
    const because = this.show();
    this.#light(because?.path.length ?? 0);
    if (because) this.bring([...because.path, ...because.blockers].map(({ leaf }) => leaf).concat(target?.part === "" ? [target.leaf] : []));
  }

  /** Lights the way of the current part by part. @param {number} steps */
  #light(steps) {
    clearTimeout(this.timer);
    this.lit = 0;
    if (steps < 2 || still.matches) return this.draw();
    const next = () => {
      this.lit += 1;
      this.draw();
      if (this.lit < steps) this.timer = setTimeout(next, stepMS);
      else this.lit = 0;
    };
    next();
  }

  /** The answer as the machine stands now. */
  show() {
    const because = this.target ? this.answer(this.target) : null;
    the("why-back").hidden = this.trail.length === 0;
    the("why-hint").hidden = because !== null;
    say(the("why-sentence"), because?.sentence ?? "");
    say(the("why-reading"), because?.reading ?? "");
    const key = JSON.stringify({ ...because, reading: "" });
    if (key === this.key) return because;
    this.key = key;
    const focused = the("why-answer").contains(document.activeElement);
    the("why-answer").replaceChildren(...(because ? this.#told(because) : []));
    if (focused) the("why-sentence").closest("section")?.querySelector("select")?.focus({ preventScroll: true });
    return because;
  }

  /** @param {Because} because */
  #told(because) {
    /** @type {HTMLElement[]} */
    const parts = [];
    if (because.path.length > 0) {
      parts.push(make("h4", {}, word("circuit.why-path")),
        make("ol", {}, ...because.path.map((reason, i) => this.#reason(reason, String(i + 1), true))));
    }
    if (because.blockers.length > 0) {
      parts.push(make("h4", {}, word("circuit.why-blockers", { count: because.blockers.length })),
        make("ol", {}, ...because.blockers.map((reason, i) => this.#reason(reason, String.fromCharCode(97 + (i % 26)), false))));
    }
    if (because.next) parts.push(make("div", {}, this.#button(because.next, word("circuit.why-mover"))));
    else if (because.end && because.path.length + because.blockers.length === 0) parts.push(make("p", { class: "hint" }, word("circuit.why-end", { end: because.end })));
    return parts;
  }

  /**
   * @param {Reason} reason
   * @param {string} sign
   * @param {boolean} path
   */
  #reason(reason, sign, path) {
    /** @type {string[]} */
    const notes = [];
    if (reason.leaf >= 0) notes.push(word("circuit.why-line", { line: this.facts?.leaves[reason.leaf]?.line ?? "" }));
    if (reason.end) notes.push(word("circuit.why-end", { end: reason.end }));
    if (reason.bypassed) notes.push(word("circuit.why-bypassed"));
    if (reason.or?.length) notes.push(word("circuit.why-or", { names: reason.or.map((leaf) => this.facts?.leaves[leaf]?.name ?? "").join(", ") }));
    return make("li", { class: "reason" },
      make("span", { class: path ? "badge path" : "badge", "aria-hidden": "true" }, sign),
      make("span", {}, reason.text),
      ...(reason.next ? [this.#button(reason.next, word("circuit.why-next"), reason.text)] : [make("span", {})]),
      make("span", { class: "hint" }, notes.join(" ")));
  }

  /**
   * @param {Target} target
   * @param {string} text
   * @param {string} [about]
   */
  #button(target, text, about) {
    return make("button", { type: "button", "aria-label": about ? word("circuit.why-next-about", { about }) : false, onclick: () => this.ask(target) }, text);
  }
}
