// What the program answers to the ring bench. Types only.

/** @typedef {import("../drive/picture.js").Picture} Picture */
/** @typedef {import("../drive/player.js").Clock} Clock */
/** @typedef {import("../building/types.js").Fault} Fault */
/** @typedef {import("../building/types.js").Cell} Cell */

/**
 * The building on the stage, and what can be set of its ring.
 * @typedef {object} Form
 * @property {string} building
 * @property {string} text
 * @property {string} caution @property {string} observe
 * @property {{path: string, unit: string, whole: boolean, least: number, most: number, range: string, why: string}[]} fields
 * @property {{name: string, height_m: number}[]} floors
 * @property {number} travel_m
 * @property {number} fast_m_s the fastest car that can be matched
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

/**
 * A fitted ring, or a set of them. Its clock begins with the observation; lamps
 * are, by floor, the instants at which they are fed and cut off in turn.
 * @typedef {object} Answer
 * @property {string} trip
 * @property {"one"|"several"|"set"|"none"} verdict
 * @property {boolean} try
 * @property {string[]} says @property {string[]} apart @property {string[]} odd
 * @property {[string, string, string, string][]} unknowns
 * @property {{row: number, lamp: string, state: string, seen: string, fitted: string, off: string, off_ms: number | null, used: boolean}[]} edges
 * @property {Picture} traces
 * @property {Clock} clock
 * @property {number} rise_s @property {number} fall_s
 * @property {string[]} floors
 * @property {number[][]} seen
 * @property {number[][] | null} fitted
 */

/**
 * How far a fit is, and what it comes to.
 * @typedef {object} Matched
 * @property {"none"|"refused"|"running"|"done"|"cancelled"|"failed"} state
 * @property {number} done @property {number} of
 * @property {object | null} task for the worker
 * @property {string} reason of one that failed
 * @property {{row: number, text: string}[]} problems
 * @property {Answer | null} answer
 */

/**
 * A ride in exact time, seconds from setting off.
 * @typedef {object} Ride
 * @property {string} from @property {string} to
 * @property {number} arrive_s @property {number} rise_s @property {number} fall_s
 * @property {string[]} floors
 * @property {number[][]} lamps
 * @property {string} says
 */

export {};
