// The form: every value of a building file, in the sections of the file.
import { make, say } from "../../dom.js";
import { has, word } from "../../words.js";
import { Floors } from "./floors.js";
import { Joins } from "./joins.js";
import { fill, named, row, tell } from "./row.js";

/** @typedef {import("./types.js").Field} Field */
/** @typedef {import("./types.js").Fault} Fault */
/** @typedef {import("./types.js").Sheet} Sheet */
/** @typedef {import("./row.js").Do} Do */

/** Sections that are open from the beginning; on a small screen the first alone. */
const open = matchMedia("(width < 40rem)").matches ? ["floors"] : ["floors", "lift", "machine", "selector"];

export class Form {
  /**
   * @param {HTMLElement} place
   * @param {Field[]} fields
   * @param {Do} act
   */
  constructor(place, fields, act) {
    this.act = act;
    this.place = place;
    /** @type {{show: (sheet: Sheet) => void}[]} */
    this.lists = [];
    /** @type {{details: HTMLDetailsElement, count: HTMLElement, path: string}[]} */
    this.sections = [];
    const name = fields.find((field) => field.path === "name");
    if (name) place.append(make("div", { class: "values" }, row(name, act)));
    for (const field of fields) {
      if (field.kind === "map" || field.kind === "list") place.append(this.#section(field));
    }
  }

  /** @param {Field} field */
  #section(field) {
    const count = make("span", { class: "count" });
    const about = `editor.about-${field.path}`;
    const body = field.kind === "list" ? this.#list(new Floors(field, this.act)) : this.#values(field.fields ?? []);
    const details = make("details", { class: "section", "data-section": field.path, open: open.includes(field.path) },
      make("summary", {}, make("h3", {}, word(named(field.path))), ...(has(about) ? [make("span", { class: "about-section" }, word(about))] : []), count),
      body);
    this.sections.push({ details, count, path: field.path });
    return details;
  }

  /** @param {Floors | Joins} list */
  #list(list) {
    this.lists.push(list);
    return list.root;
  }

  /**
   * @param {Field[]} fields
   * @returns {HTMLElement}
   */
  #values(fields) {
    return make("div", { class: "values" }, ...fields.map((field) => {
      if (field.kind === "list") return this.#list(new Joins(field, this.act));
      if (field.kind !== "map") return row(field, this.act);
      return make("fieldset", { class: "inner" }, make("legend", {}, word(named(field.path))), this.#values(field.fields ?? []));
    }));
  }

  /** @param {Sheet} sheet */
  show(sheet) {
    for (const list of this.lists) list.show(sheet);
    for (const element of this.place.querySelectorAll("[data-path]")) {
      const input = /** @type {HTMLInputElement | HTMLSelectElement} */ (element);
      const path = input.dataset.path ?? "";
      const faults = sheet.faults.filter((fault) => fault.path === path);
      fill(input, sheet.values[path]);
      input.disabled = !sheet.readable;
      input.toggleAttribute("data-warned", faults.some((fault) => fault.warning));
      if (faults.some((fault) => !fault.warning)) input.setAttribute("aria-invalid", "true");
      else input.removeAttribute("aria-invalid");
      const place = document.getElementById(`${input.id}-faults`);
      if (place) tell(place, faults, this.act);
    }
    for (const { details, count, path } of this.sections) {
      const faults = sheet.faults.filter((fault) => fault.path === path || fault.path.startsWith(`${path}.`) || fault.path.startsWith(`${path}[`));
      const inside = faults.length;
      count.classList.toggle("wrong", faults.some((fault) => !fault.warning));
      say(count, inside > 0 ? word("editor.in-section", { count: inside }) : "");
      if (inside > 0 && count.dataset.seen !== String(inside)) details.open = true;
      count.dataset.seen = String(inside);
    }
  }

  /** Whether a fault has its place in the form. @param {Fault} fault */
  has(fault) {
    return [...this.place.querySelectorAll("[data-path]")].some((input) => /** @type {HTMLElement} */ (input).dataset.path === fault.path);
  }

  /** Puts the focus on a value, its section opened. @param {string} path */
  focus(path) {
    const input = [...this.place.querySelectorAll("[data-path]")].find((element) => /** @type {HTMLElement} */ (element).dataset.path === path);
    const details = input?.closest("details");
    if (details) details.open = true;
    /** @type {HTMLElement | undefined} */ (input)?.focus();
  }
}
