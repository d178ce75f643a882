// What the program answers to the screen of hand-winding. Types only.

/** @typedef {import("../drive/picture.js").Picture} Picture */
/** @typedef {{key: string, step: number, say: string, why: string, done: boolean, now: boolean}} Step */

/**
 * @typedef {object} Form
 * @property {string} building
 * @property {boolean} fresh the machine is none of this building
 * @property {string[]} cautions
 * @property {{name: string, height_m: number}[]} floors
 * @property {string} floor @property {number} offMM @property {number} loadKG @property {number} mostKG
 */

/**
 * The machine as it stands.
 * @typedef {object} Now
 * @property {Step[]} steps
 * @property {string} where
 * @property {string} next key of the step, "done" at the end
 * @property {string} refusal
 * @property {boolean} busy let time pass
 * @property {boolean} canEase
 * @property {string} floor the nearest
 * @property {number} offMM @property {number} turns @property {number} perTurn @property {number} moves
 * @property {number} speedMS
 * @property {{key: string, name: string, text: string}[]} states
 * @property {{floor: string, direction: string, centre: string, brush: string, lamp: string, near: boolean}[]} switches
 */

/**
 * @typedef {object} Room
 * @property {{key: string, name: string, text: string}[]} figures
 * @property {{head: string[], rows: string[][]}} storeys
 * @property {string} drift @property {string} stays
 * @property {Picture} effort @property {string} effortSay
 * @property {Picture} runaway @property {string} runawaySay
 * @property {Now} now
 */

export {};
