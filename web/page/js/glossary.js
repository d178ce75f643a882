// The words that the glossary explains, and where.

/** @type {Record<string, string>} its place on the page, by word */
const terms = JSON.parse(document.getElementById("terms")?.textContent ?? "{}");

/**
 * The longest of the glossary's words in a text, and where it is explained.
 * @param {string} text
 * @returns {{word: string, href: string} | null}
 */
export function term(text) {
  const padded = ` ${text.toLocaleLowerCase().replace(/[^\p{L}\p{N}-]+/gu, " ")} `;
  const word = Object.keys(terms).filter((w) => padded.includes(` ${w} `) || padded.includes(` ${w}s `)).sort((a, b) => b.length - a.length)[0];
  return word ? { word, href: `glossary.html#${terms[word]}` } : null;
}
