// What the program answers to the ring bench. Types only.

/** @typedef {import("../drive/picture.js").Picture} Picture */
/** @typedef {import("../drive/player.js").Clock} Clock */
/** @typedef {import("../building/types.js").Fault} Fault */
/** @typedef {import("../building/types.js").Cell} Cell */

/**
 * The building on the stage, and what can be set of its ring.
 * @typedef {object} Form
 * @property {string} building
 * @property {boolean} fresh
 * @property {string} text
 * @property {string} caution @property {string} observe
 * @property {{path: string, unit: string, whole: boolean, least: number, most: number, range: string, why: string}[]} fields
 * @property {{name: string, height_m: number}[]} floors
 * @property {number} travel_m
 */

/** @typedef {{index: number, angle_deg: number, height_m: number, floor: string}} Terminal */
/** @typedef {{below: string, above: string, blank_terminals: number, dark_m: number, dark_s: number, dark_slow_s: number, overlap_m: number, sight: "hidden"|"doubtful"|"seen"}} Boundary */

/**
 * @typedef {object} Page
 * @property {string} building
 * @property {Terminal[]} terminals
 * @property {Boundary[]} boundaries
 * @property {{floor: string, lit_m: number, lit_s: number}[]} lamps
 * @property {{terminal: number, floor: string}[]} joins
 * @property {string[]} notes
 */

/** @typedef {{possible: boolean, argument: string[], proposals: {says: string[]}[]}} Advice */

/**
 * A ring laid out; without a page where the text describes none.
 * @typedef {object} Laid
 * @property {string} text
 * @property {boolean} changed @property {boolean} sound
 * @property {Record<string, Cell>} values
 * @property {Fault[]} faults
 * @property {string[]} about
 * @property {Page | null} page
 * @property {Advice | null} advice
 * @property {Picture} ring @property {Picture} strip
 */

export {};
