// Terminals of the ring joined by hand, otherwise than they are laid out.
import { make } from "../../dom.js";
import { word } from "../../words.js";
import { entry, idOf } from "./row.js";
import { icon } from "./icon.js";

/** @typedef {import("./types.js").Field} Field */
/** @typedef {import("./types.js").Sheet} Sheet */
/** @typedef {import("./row.js").Do} Do */

export class Joins {
  /**
   * @param {Field} field
   * @param {Do} act
   */
  constructor(field, act) {
    this.field = field;
    this.act = act;
    this.key = "";
    this.rows = make("div", { class: "join-rows" });
    this.add = make("button", { type: "button", class: "add", onclick: () => this.act({ do: "add-join" }) }, icon("add"), word("editor.join-add"));
    this.root = make("fieldset", { class: "inner joins" }, make("legend", {}, word("editor.value-selector-joins")), this.rows, this.add);
  }

  /** @param {Sheet} sheet */
  show(sheet) {
    this.add.disabled = !sheet.readable || sheet.joins >= this.field.most;
    const floors = Array.from({ length: sheet.floors }, (_, i) => sheet.values[`floors[${i}].name`]?.value ?? "");
    const key = JSON.stringify([sheet.joins, floors]);
    if (key === this.key) return;
    this.key = key;
    const focused = document.activeElement?.id;
    const fields = this.field.fields ?? [];
    this.rows.replaceChildren(...Array.from({ length: sheet.joins }, (_, i) => {
      const path = (/** @type {string} */ k) => `selector.joins[${i}].${k}`;
      const field = (/** @type {string} */ k) => /** @type {Field} */ (fields.find((f) => f.path.endsWith(`.${k}`)));
      const number = i + 1;
      const terminal = entry({ ...field("terminal"), range: "" }, path("terminal"), this.act, word("editor.join-terminal", { number }));
      const floor = make("select", {
        id: idOf(path("floor")), "data-path": path("floor"), "aria-label": word("editor.join-floor", { number }), "aria-describedby": `${idOf(path("floor"))}-faults`,
        onchange: (/** @type {Event} */ event) => this.act({ do: "set", path: path("floor"), value: /** @type {HTMLSelectElement} */ (event.target).value }),
      }, make("option", { value: "blank" }, word("editor.join-blank")), ...floors.map((name) => make("option", { value: name }, name)));
      const remove = word("editor.join-remove", { number });
      return make("div", { class: "join" }, terminal, floor,
        make("button", { type: "button", class: "icon", "aria-label": remove, title: remove, onclick: () => this.act({ do: "remove-join", index: i }) }, icon("remove")),
        make("div", { class: "faults", id: `${terminal.id}-faults` }), make("div", { class: "faults", id: `${floor.id}-faults` }));
    }));
    if (focused) document.getElementById(focused)?.focus();
  }
}
