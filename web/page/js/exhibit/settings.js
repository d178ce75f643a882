// What the staff can set, each within its bounds, and what follows from the
// size of the screen.

/**
 * @typedef {object} Settings
 * @property {string} language tag of the page to which the exhibit goes back; "" for the first
 * @property {number} inches diagonal of the screen, 0 when it is not known
 * @property {number} idleS seconds without a touch before the exhibit asks who is there
 * @property {number} warningS seconds it then waits
 * @property {string[]} off scenes that are not offered
 * @property {string} theme "paper" or "slate"
 * @property {string} code
 */

/** Least, most and step. */
export const bounds = {
  inches: [7, 110, 1],
  idleS: [60, 90, 5],
  warningS: [20, 60, 5],
};

/** Digits of a code. */
export const codeDigits = 4;

/** @type {Readonly<Settings>} */
export const first = Object.freeze({ language: "", inches: 0, idleS: 75, warningS: 25, off: [], theme: "paper", code: "3141" });

/**
 * What was kept, where it can be used, and else what stands first.
 * @param {any} kept
 * @returns {Settings}
 */
export function sound(kept) {
  const had = typeof kept === "object" && kept ? kept : {};
  const within = (/** @type {"inches" | "idleS" | "warningS"} */ name) => {
    const [least, most] = bounds[name];
    return Number.isInteger(had[name]) && had[name] >= least && had[name] <= most ? had[name] : first[name];
  };
  return {
    language: typeof had.language === "string" ? had.language : first.language,
    inches: within("inches"), idleS: within("idleS"), warningS: within("warningS"),
    off: Array.isArray(had.off) ? had.off.filter((/** @type {unknown} */ id) => typeof id === "string") : [],
    theme: ["paper", "slate"].includes(had.theme) ? had.theme : first.theme,
    code: new RegExp(`^\\d{${codeDigits}}$`).test(had.code) ? had.code : first.code,
  };
}

/** The least side of what is touched, millimetres. */
export const targetMM = 20;

// A screen of unknown size is taken for one of ten inches: on any larger one
// everything is larger.
const unknown = 10;

/**
 * CSS pixels to a millimetre of the screen.
 * @param {number} inches its diagonal, 0 when it is not known
 * @param {{width: number, height: number}} [size] CSS pixels
 */
export function pixelsPerMM(inches, size = screen) {
  return Math.hypot(size.width, size.height) / (25.4 * (inches || unknown));
}
