// The page's words: one catalogue, named slots, plurals by count.

/** @typedef {string | (Partial<Record<Intl.LDMLPluralRule, string>> & {other: string})} Message */

/** @type {Record<string, Message>} */
const catalogue = JSON.parse(document.getElementById("words")?.textContent ?? "{}");
/** The language of the page. */
export const language = document.documentElement.lang || "en";
const plurals = new Intl.PluralRules(language);

/**
 * Adds the messages of a screen.
 * @param {Record<string, Message>} messages
 */
export function learn(messages) { Object.assign(catalogue, messages); }

/**
 * The words of a message, its slots filled.
 * @param {string} id
 * @param {Record<string, string | number>} [slots] `count` chooses the plural
 * @returns {string}
 */
export function word(id, slots = {}) {
  const message = catalogue[id];
  if (message === undefined) {
    console.error(`no words for ${id}`);
    return id;
  }
  const text = typeof message === "string"
    ? message
    : message[plurals.select(Number(slots.count))] ?? message.other;
  return text.replace(/\{([a-z0-9-]+)\}/g, (whole, name) => String(slots[name] ?? whole));
}

/**
 * Whether the catalogue has a message.
 * @param {string} id
 */
export function has(id) {
  return catalogue[id] !== undefined;
}

/**
 * A number in the reader's language, with fixed decimals, in one run of digits as
 * the program writes it.
 * @param {number} value
 * @param {number} decimals
 */
export function number(value, decimals) {
  // Adding zero turns -0 into 0, so that a car at rest has no minus sign.
  const rounded = Number(value.toFixed(decimals)) + 0;
  return rounded.toLocaleString(language, { minimumFractionDigits: decimals, maximumFractionDigits: decimals, useGrouping: false });
}

/** British dates with British words. */
const dates = new Intl.DateTimeFormat(language === "en" ? "en-GB" : language, { dateStyle: "long" });

/**
 * A day in the reader's language, as in "3 May 2026".
 * @param {Date | string} day a date, or a day as files and programs write it: 2026-05-03
 */
export const date = (day) => dates.format(typeof day === "string" ? new Date(`${day}T12:00`) : day);

/** The sign between the whole of a number and its fraction. */
const point = number(1.5, 1).charAt(1);

/**
 * A figure as a file spells it, for the reader to change.
 * @param {string} figure
 */
export const spelt = (figure) => figure.replace(".", point);

/**
 * And what the reader has typed, as a file spells it.
 * @param {string} typed
 */
export const unspelt = (typed) => typed.replace(",", ".");

/**
 * A text that begins a line.
 * @param {string} text
 */
export function capital(text) {
  return text.charAt(0).toLocaleUpperCase(language) + text.slice(1);
}
