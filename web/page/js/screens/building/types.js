// The shapes that pass between this screen and the program. Types only.

/** @typedef {{path: string, value: string, text: string}} Cure */
/** @typedef {{path: string, line: number, column: number, text: string, warning: boolean, cures: Cure[]}} Fault */
/** @typedef {{value: string, given: boolean}} Cell */

/**
 * One value of a building file, or a group of them.
 * @typedef {object} Field
 * @property {string} path
 * @property {"real"|"whole"|"text"|"choice"|"truth"|"map"|"list"} kind
 * @property {string} unit
 * @property {string} range
 * @property {string} why
 * @property {string[] | null} choices
 * @property {boolean} required
 * @property {number} least
 * @property {number} most
 * @property {Field[] | null} fields
 */

/**
 * A building file as a form shows it.
 * @typedef {object} Sheet
 * @property {string} text
 * @property {boolean} readable
 * @property {boolean} sound
 * @property {string} name
 * @property {number} floors
 * @property {number} joins
 * @property {Record<string, Cell>} values
 * @property {Fault[]} faults
 * @property {string} note
 */

/**
 * One change.
 * @typedef {object} Edit
 * @property {string} do
 * @property {string} [path]
 * @property {string} [value]
 * @property {number} [index]
 */

export {};
