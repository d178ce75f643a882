// The shapes that pass between this screen and the program. Types only.

/** @typedef {{id: string, name: string}} Named */
/** @typedef {{name: string, line: number, part: string, moves: boolean, guard: string}} LeafFact */
/** @typedef {{Leaf: number, Node: number, X0: number, Y0: number, X1: number, Y1: number}} Spot */
/** @typedef {{part: string, leaf: number}} Target */

/**
 * @typedef {object} Facts
 * @property {string} key
 * @property {string} scheme
 * @property {{id: string, name: string, limits: string}[]} schemes
 * @property {string[]} floors lowest first
 * @property {{kind: "relay"|"call"|"lamp"|"switch", parts: Named[]}[]} targets
 * @property {LeafFact[]} leaves
 * @property {{node: number, name: string}[]} nodes
 * @property {Named[]} calls
 */

/** @typedef {{leaf: number, text: string, next: Target | null, end: string, bypassed: boolean, or: number[] | null}} Reason */
/** @typedef {{volts: string, between: {leaf: number, text: string}[]}} Reading */
/** @typedef {{sentence: string, reading: string, on: boolean, path: Reason[], blockers: Reason[], next: Target | null, end: string}} Because */
/** @typedef {{sentence: string, refused: boolean, rows: {time_s: number, asIs: string, with: string}[], more: number, first: string, notes: string[], ends: {what: string, asIs: string, with: string}[]}} Tried */
/** @typedef {{state: string, task: object | null, done: number, of: number, said: string[], scene: string, stale: boolean, scheme: string}} Proving */

export {};
