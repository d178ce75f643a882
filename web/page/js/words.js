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
 * A number in the reader's language, with fixed decimals.
 * @param {number} value
 * @param {number} decimals
 */
export function number(value, decimals) {
  // Adding zero turns -0 into 0, so that a car at rest has no minus sign.
  const rounded = Number(value.toFixed(decimals)) + 0;
  return rounded.toLocaleString(language, { minimumFractionDigits: decimals, maximumFractionDigits: decimals });
}

/**
 * A text that begins a line.
 * @param {string} text
 */
export function capital(text) {
  return text.charAt(0).toLocaleUpperCase(language) + text.slice(1);
}
