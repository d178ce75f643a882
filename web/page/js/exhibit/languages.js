// The languages that the site was built in: the page names the others in its
// head, as a search engine would read it.

/**
 * @typedef {object} Language
 * @property {string} tag
 * @property {string} name in the language itself
 * @property {string} href of its page, without what follows the ?
 * @property {boolean} here
 */

/** @returns {Language[]} the first is the site's own */
export function languages() {
  const here = document.documentElement.lang || "en";
  const others = /** @type {HTMLLinkElement[]} */ ([...document.head.querySelectorAll('link[rel="alternate"][hreflang]')])
    .filter((link) => link.hreflang !== "x-default");
  const found = others.map((link) => ({ tag: link.hreflang, href: folder(link.href) }));
  if (!found.some(({ tag }) => tag === here)) found.unshift({ tag: here, href: folder(location.origin + location.pathname) });
  return found.map(({ tag, href }) => ({ tag, href, name: named(tag), here: tag === here }));
}

/** A page's address without the name every folder's first page has. @param {string} href */
const folder = (href) => href.replace(/\/index\.html$/, "/");

/** @param {string} tag */
function named(tag) {
  try {
    const name = new Intl.DisplayNames([tag], { type: "language" }).of(tag) ?? tag;
    return name.charAt(0).toLocaleUpperCase(tag) + name.slice(1);
  } catch { return tag; } // one the browser has never heard of
}

/**
 * Goes to the page of a language, without a step in the history.
 * @param {Language} language
 * @param {string} hash
 */
export function go(language, hash) { location.replace(language.href + location.search + hash); }
