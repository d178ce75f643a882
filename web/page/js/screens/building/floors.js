// The floors as a table, the highest on top: names, heights, and buttons to
// add, move and take out.
import { make, say } from "../../dom.js";
import { number, word } from "../../words.js";
import { entry, idOf } from "./row.js";
import { icon } from "./icon.js";

/** @typedef {import("./types.js").Field} Field */
/** @typedef {import("./types.js").Sheet} Sheet */
/** @typedef {import("./row.js").Do} Do */

export class Floors {
  /**
   * @param {Field} field
   * @param {Do} act
   */
  constructor(field, act) {
    this.field = field;
    this.act = act;
    this.count = -1;
    this.body = make("tbody");
    this.top = make("button", { type: "button", class: "add", onclick: () => this.act({ do: "add-floor", index: this.count - 1 }) }, icon("add"), word("editor.floor-add-top"));
    this.faults = make("div", { class: "faults" });
    this.root = make("div", { class: "floors" }, this.top, make("table", {},
      make("thead", {}, make("tr", {},
        ...["editor.value-floors-name", "editor.value-floors-height-m", "editor.floor-storey", "editor.floor-change"].map((id) => make("th", { scope: "col" }, word(id))))),
      this.body), this.faults);
  }

  /** @param {Sheet} sheet */
  show(sheet) {
    if (sheet.floors !== this.count) this.#lay(sheet.floors);
    const name = (/** @type {number} */ i) => sheet.values[`floors[${i}].name`]?.value ?? "";
    const height = (/** @type {number} */ i) => Number(sheet.values[`floors[${i}].height_m`]?.value ?? NaN);
    this.top.disabled = !sheet.readable || this.count >= this.field.most;
    for (const line of this.body.rows) {
      if (line.dataset.index === undefined) continue;
      const i = Number(line.dataset.index);
      const storey = i > 0 ? height(i) - height(i - 1) : NaN;
      say(line.cells[2], Number.isFinite(storey) ? word("editor.storey", { height: number(storey, 2), name: name(i - 1) }) : "");
      for (const element of line.querySelectorAll("button, input")) {
        const control = /** @type {HTMLButtonElement | HTMLInputElement} */ (element);
        const label = word(control.dataset.label ?? "", { name: name(i) });
        if (control.getAttribute("aria-label") !== label) control.setAttribute("aria-label", label);
        if (control instanceof HTMLInputElement) continue;
        control.title = label;
        control.disabled = !sheet.readable || {
          "raise-floor": i === this.count - 1, "lower-floor": i === 0,
          "add-floor": this.count >= this.field.most, "remove-floor": this.count <= this.field.least,
        }[control.dataset.do ?? ""] === true;
      }
    }
  }

  /** Lays the rows out; the focus stays with its floor. @param {number} count */
  #lay(count) {
    const focused = /** @type {HTMLElement | null} */ (document.activeElement);
    const back = focused && this.body.contains(focused) ? { index: Number(focused.closest("tr")?.dataset.index), act: focused.dataset.do, path: focused.dataset.path } : null;
    const more = count - this.count;
    this.count = count;
    const fields = this.field.fields ?? [];
    /** @type {HTMLElement[]} */
    const rows = [];
    for (let i = count - 1; i >= 0; i--) {
      const [name, height] = ["name", "height_m"].map((key) => {
        const path = `floors[${i}].${key}`;
        const field = fields.find((f) => f.path.endsWith(`.${key}`));
        const input = field ? entry(field, path, this.act, " ") : make("input");
        input.dataset.label = key === "name" ? "editor.floor-name" : "editor.floor-height";
        return input;
      });
      const button = (/** @type {string} */ deed, /** @type {string} */ label) => make("button", {
        type: "button", class: "icon", "data-do": deed, "data-label": label, onclick: () => {
          this.act({ do: deed, index: i });
          if (deed === "raise-floor") this.#focus(i + 1, deed);
          if (deed === "lower-floor") this.#focus(i - 1, deed);
        },
      }, icon(deed.split("-")[0]));
      rows.push(make("tr", { "data-index": i },
        make("td", {}, name),
        make("td", {}, make("span", { class: "entry" }, height, make("span", { class: "unit", id: `${height.id}-range` }, "m"))),
        make("td", { class: "storey" }),
        make("td", { class: "moves" }, button("raise-floor", "editor.floor-raise"), button("lower-floor", "editor.floor-lower"), button("add-floor", "editor.floor-add"), button("remove-floor", "editor.floor-remove"))),
      make("tr", { class: "under" }, make("td", { colspan: 4 }, make("div", { class: "faults", id: `${idOf(`floors[${i}].name`)}-faults` }), make("div", { class: "faults", id: `${idOf(`floors[${i}].height_m`)}-faults` }))));
    }
    this.body.replaceChildren(...rows);
    if (back) this.#focus(Math.min(back.act === "add-floor" && more > 0 ? back.index + 1 : back.index, count - 1), back.act, back.path?.split(".")[1]);
  }

  /**
   * @param {number} index
   * @param {string} [deed]
   * @param {string} [key]
   */
  #focus(index, deed, key) {
    const line = this.body.querySelector(`tr[data-index="${index}"]`);
    const button = /** @type {HTMLButtonElement | null | undefined} */ (line?.querySelector(`[data-do="${deed}"]`));
    const input = /** @type {HTMLElement | null | undefined} */ (line?.querySelector(`[data-path$=".${key ?? "name"}"]`));
    if (button && !button.disabled) button.focus();
    else input?.focus();
  }
}
