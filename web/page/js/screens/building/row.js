// One value of the form: label, entry, unit, limits, and under them what is
// wrong with it and how to put that right.
import { make } from "../../dom.js";
import { spelt, unspelt, word } from "../../words.js";

/** @typedef {import("./types.js").Field} Field */
/** @typedef {import("./types.js").Cell} Cell */
/** @typedef {import("./types.js").Fault} Fault */
/** @typedef {import("./types.js").Edit} Edit */
/** @typedef {(edit: Edit, about?: string) => void} Do */

/** The message that names a value. @param {string} path */
export const named = (path) => `editor.value-${path.replace(/\[\d*\]/g, "").replace(/[._]/g, "-")}`;

/** An id fit for a value. @param {string} path */
export const idOf = (path) => `value-${path.replace(/[^a-z0-9]+/g, "-")}`;

const pause = 450; // milliseconds without a key before what was typed is tried

/**
 * The entry of a value. What was typed is tried after a pause and on leaving;
 * the arrow keys change a figure by one in its last place.
 * @param {Field} field
 * @param {string} path
 * @param {Do} act
 * @param {string} [label] where no label stands beside it
 */
export function entry(field, path, act, label) {
  const id = idOf(path);
  if (field.kind === "choice") {
    return make("select", { id, "data-path": path, "aria-label": label ?? false, "aria-describedby": `${id}-faults`,
      onchange: (/** @type {Event} */ event) => act({ do: "set", path, value: /** @type {HTMLSelectElement} */ (event.target).value }) },
    ...(field.choices ?? []).map((choice) => make("option", { value: choice }, word(`editor.choice-${choice}`))));
  }
  const figure = field.kind === "real" || field.kind === "whole";
  let timer = 0;
  const input = make("input", {
    id, type: "text", "data-path": path, "aria-label": label ?? false, class: figure ? "figure" : "words",
    inputmode: figure ? "decimal" : "text", placeholder: figure && !field.required ? word("editor.not-given") : false, autocomplete: "off", spellcheck: "false",
    "aria-describedby": [field.range || field.unit ? `${id}-range` : "", `${id}-faults`].filter(Boolean).join(" "),
  });
  const send = () => {
    clearTimeout(timer);
    timer = 0;
    const value = input.value.trim();
    if (value !== input.dataset.shown) act({ do: "set", path, value: figure ? unspelt(value) : value }, path);
  };
  input.addEventListener("input", () => { clearTimeout(timer); timer = setTimeout(send, pause); });
  input.addEventListener("change", send);
  if (figure) {
    input.addEventListener("keydown", (event) => {
      const by = { ArrowUp: 1, ArrowDown: -1 }[event.key];
      if (!by || !/^-?\d+([.,]\d+)?$/.test(input.value.trim())) return;
      event.preventDefault();
      const decimals = input.value.split(/[.,]/)[1]?.trim().length ?? 0;
      input.value = spelt((Number(unspelt(input.value)) + by * 10 ** -decimals).toFixed(decimals));
      send();
    });
  }
  return input;
}

/**
 * @param {Field} field
 * @param {Do} act
 */
export function row(field, act) {
  const id = idOf(field.path);
  return make("div", { class: `value ${field.kind}` },
    make("label", { for: id }, word(named(field.path))),
    make("span", { class: "entry" }, entry(field, field.path, act),
      ...(field.kind === "choice" || field.kind === "text" ? [] : [make("span", { class: "unit" }, field.unit)])),
    ...(field.range ? [make("span", { class: "range", id: `${id}-range`, title: field.why }, field.range, ...(field.unit ? [make("span", { class: "unseen" }, ` ${field.unit}`)] : []))] : []),
    make("div", { class: "faults", id: `${id}-faults` }));
}

/**
 * Shows a value. What the reader is typing stays as it is typed.
 * @param {HTMLInputElement | HTMLSelectElement} input
 * @param {Cell | undefined} cell
 */
export function fill(input, cell) {
  const value = input.classList.contains("figure") ? spelt(cell?.value ?? "") : cell?.value ?? "";
  const typing = document.activeElement === input && input.value.trim() !== (input.dataset.shown ?? "");
  if (input instanceof HTMLSelectElement) {
    input.querySelector("option.odd")?.remove();
    if (![...input.options].some((option) => option.value === value)) input.prepend(make("option", { value, class: "odd" }, value));
  }
  if (!typing) input.value = value;
  input.dataset.shown = value;
  input.classList.toggle("default", !cell?.given);
}

/**
 * Writes what is wrong with one value.
 * @param {HTMLElement} place
 * @param {Fault[]} faults
 * @param {Do} act
 */
export function tell(place, faults, act) {
  const key = JSON.stringify(faults);
  if ((place.dataset.key ?? "[]") === key) return;
  place.dataset.key = key;
  place.replaceChildren(...faults.map((fault) => told(fault, act)));
}

/**
 * One fault with the buttons that cure it.
 * @param {Fault} fault
 * @param {Do} act
 * @param {...Node} before
 */
export function told(fault, act, ...before) {
  return make("div", { class: fault.warning ? "fault warning" : "fault" },
    make("p", {}, ...before, fault.text),
    ...fault.cures.map((cure) => make("button", { type: "button", class: "cure", onclick: () => act({ do: "set", path: cure.path, value: cure.value }) }, cure.text)));
}
