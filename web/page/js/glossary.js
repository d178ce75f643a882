// The words that the glossary explains, and where.

/** @type {Record<string, string>} its place on the page, by word */
const terms = JSON.parse(document.getElementById("terms")?.textContent ?? "{}");

/** What a word may end in when it is bent, in the languages there are. */
const endings = ["", "s", "es", "e", "n", "en", "er", "ern"];

/**
 * The longest of the glossary's words in a text, and where it is explained.
 * @param {string} text
 * @returns {{word: string, href: string} | null}
 */
export function term(text) {
  const padded = ` ${text.toLocaleLowerCase().replace(/[^\p{L}\p{N}-]+/gu, " ")} `;
  const word = Object.keys(terms).filter((w) => endings.some((end) => padded.includes(` ${w}${end} `))).sort((a, b) => b.length - a.length)[0];
  return word ? { word, href: `glossary.html#${terms[word]}` } : null;
}
