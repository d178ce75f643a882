// A lesson's text as elements. It arrives as pieces of plain text, so nothing
// in it can become markup.
import { make } from "./dom.js";

/** @typedef {import("./types.js").Paragraph} Paragraph */
/** @typedef {import("./types.js").Piece} Piece */

/**
 * Paragraphs and lists.
 * @param {Paragraph[] | null | undefined} paragraphs
 * @param {string} [language] of the text where it is another than the page's
 * @returns {HTMLElement[]}
 */
export function prose(paragraphs, language) {
  /** @type {HTMLElement[]} */
  const blocks = [];
  let open = "";
  for (const { kind, runs } of paragraphs ?? []) {
    const pieces = runs.map(piece);
    if (kind === "paragraph") blocks.push(make("p", {}, ...pieces));
    else if (kind === open) blocks.at(-1)?.append(make("li", {}, ...pieces));
    else blocks.push(make(kind === "numbered" ? "ol" : "ul", {}, make("li", {}, ...pieces)));
    open = kind;
  }
  if (language) for (const block of blocks) block.lang = language;
  return blocks;
}

/** @param {Piece} p */
function piece(p) {
  // A word of the trade leads to the glossary, beside the lesson.
  if (p.href?.startsWith("glossary.html")) return make("a", { href: p.href, class: "term", target: "_blank" }, make("strong", {}, p.text));
  if (p.href) return make("a", { href: p.href }, p.text);
  if (p.fact) return make("b", { class: "fact" }, p.text);
  if (p.strong) return make("strong", {}, p.text);
  if (p.emph) return make("em", {}, p.text);
  if (p.code) return make("code", {}, p.text);
  return p.text;
}
