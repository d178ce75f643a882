// What the program answers to the screen of the drive. Types only.

/** @typedef {import("./picture.js").Picture} Picture */
/** @typedef {import("./player.js").Clock} Clock */

/**
 * What is asked about: the trip and the machine that makes it.
 * @typedef {object} Question
 * @property {string} from
 * @property {string} to
 * @property {number} loadKG
 * @property {number} handwheel
 * @property {boolean} fit
 * @property {number} light
 * @property {number} heavy
 */

/**
 * @typedef {object} Form
 * @property {string} building
 * @property {boolean} fresh
 * @property {string} caution
 * @property {{name: string, height_m: number}[]} floors
 * @property {string} from @property {string} to
 * @property {number} loadKG @property {number} ratedKG @property {number} mostKG
 * @property {number} handwheel @property {number} mostHandwheel
 * @property {number} light @property {number} heavy
 * @property {number} loads @property {number} wheels
 */

/** @typedef {{key: string, name: string, text: string, beside: string, verdict: string, met: boolean}} Judged */
/** @typedef {{head: string[], rows: string[][]}} Table */
/** @typedef {{speed: string, motor: string, torque: string, energy: string, winding: string}} Reading */

/**
 * @typedef {object} Side
 * @property {string} name
 * @property {Picture} torque
 * @property {[number, number][]} path
 * @property {[number, number][]} speed
 * @property {Reading[]} now
 */

/**
 * @typedef {object} Pair
 * @property {string} trip
 * @property {Side} light @property {Side} heavy
 * @property {string[]} say
 * @property {Picture} time
 * @property {{key: string, name: string, light: string, heavy: string}[]} table
 * @property {Clock} clock
 */

/**
 * @typedef {object} Trip
 * @property {string} trip @property {string} given
 * @property {string[]} misfits
 * @property {Judged[]} figures @property {Judged[]} make
 * @property {string} limit @property {string} traction
 * @property {Picture} journey
 * @property {Clock} clock
 * @property {[number, number][]} path
 * @property {{id: string, name: string}[]} sequences
 */

/**
 * @typedef {object} Sequence
 * @property {string} title @property {string} say
 * @property {Picture} picture
 * @property {{text: string, at: string, atMS: number, cause: number, after: string, x: number, y: number}[]} links
 */

/** @typedef {{rows: {path: string, name: string, is: string, wants: string, change: string, met: boolean}[], say: string}} Cures */

export {};
