// Tables of what was measured.
import { make } from "../../dom.js";

/** @typedef {import("./types.js").Judged} Judged */

/** A cell with a sign before its word, since no colour stands alone. @param {Judged} row */
function verdict(row) {
  return make("td", { class: row.verdict ? (row.met ? "met" : "missed") : "" }, row.verdict);
}

/**
 * Figures with what they are to be read against.
 * @param {HTMLElement} table
 * @param {Judged[]} rows
 */
export function judged(table, rows) {
  table.querySelector("tbody")?.replaceChildren(...rows.map((row) => make("tr", { "data-key": row.key },
    make("th", { scope: "row" }, row.name), make("td", { class: "amount" }, row.text), make("td", {}, row.beside), verdict(row))));
}

/**
 * A table of texts, the first column its heads.
 * @param {HTMLElement} table
 * @param {{head: string[], rows: string[][]}} data
 */
export function plain(table, { head, rows }) {
  table.querySelector("thead")?.replaceChildren(make("tr", {}, ...head.map((text) => make("th", { scope: "col" }, text))));
  table.querySelector("tbody")?.replaceChildren(...rows.map((cells) => make("tr", {},
    ...cells.map((text, i) => (i === 0 ? make("th", { scope: "row" }, text) : make("td", {}, text))))));
}
