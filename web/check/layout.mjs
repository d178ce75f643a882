// What is wrong with a page's layout, whatever the words on it.

/**
 * Lists texts that are cut off, that leave the control or cell they belong to,
 * or that lie on one another, and a page that scrolls sideways. Texts inside
 * drawings have tests of their own.
 * @param {import("playwright-core").Page} page
 * @returns {Promise<string[]>}
 */
export const flaws = (page) => page.evaluate(() => {
  /** @type {string[]} */
  const found = [];
  if (document.documentElement.scrollWidth > innerWidth) found.push(`the page is ${document.documentElement.scrollWidth} wide`);
  // A label for readers of a screen alone is a pixel wide; code that is coloured lies under the field it belongs to and scrolls with that.
  const unseen = (e) => e.closest(".unseen, .skip, svg, iframe, option, script, pre") || !e.checkVisibility({ visibilityProperty: true, opacityProperty: true }) || clipped(e);
  const clipped = (e) => { for (; e; e = e.parentElement) if (getComputedStyle(e).clipPath !== "none" && e.clientWidth <= 1) return true; return false; };
  const fixed = (e) => { for (; e; e = e.parentElement) if (getComputedStyle(e).position === "fixed") return true; return false; };
  const scrolls = (value) => value === "auto" || value === "scroll";
  const name = (e) => `${e.tagName.toLowerCase()}${e.id ? `#${e.id}` : e.classList.length ? `.${e.classList[0]}` : ""}`;

  /** What of a rectangle can be seen through everything around an element that scrolls or clips. */
  const seen = (rect, element) => {
    let { left, top, right, bottom } = rect;
    for (let e = element; e && e !== document.body; e = e.parentElement) {
      const style = getComputedStyle(e);
      if (style.overflowX === "visible" && style.overflowY === "visible") continue;
      const box = e.getBoundingClientRect();
      [left, top, right, bottom] = [Math.max(left, box.left), Math.max(top, box.top), Math.min(right, box.right), Math.min(bottom, box.bottom)];
    }
    return { left, top, right, bottom };
  };

  const texts = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const element = node.parentElement;
    if (!element || !node.textContent?.trim() || unseen(element)) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    for (const rect of range.getClientRects()) {
      if (rect.width < 1) continue;
      const said = `“${node.textContent.trim().slice(0, 40)}” in ${name(element)}`;
      for (let e = element; e && e !== document.body; e = e.parentElement) {
        const style = getComputedStyle(e), box = e.getBoundingClientRect();
        const inside = rect.right <= box.right + 1.5 && rect.left >= box.left - 1.5;
        // Cut off by what clips; only what is a table, paper or code may be scrolled to.
        if (style.overflowX !== "visible") {
          if (!inside && !(scrolls(style.overflowX) && element.closest("table, .paper, .sheet"))) found.push(`${said} is cut off by ${name(e)}`);
          break;
        }
        // Out of what has an edge or a ground of its own.
        if (!inside && style.display !== "inline" && box.width > 0 && (parseFloat(style.borderLeftWidth) > 0 || style.backgroundColor !== "rgba(0, 0, 0, 0)")) {
          found.push(`${said} leaves ${name(e)} by ${Math.round(Math.max(rect.right - box.right, box.left - rect.left))} px`);
        }
      }
      // Out of its cell or paragraph.
      const own = element.closest("td, th, label, legend, summary, dt, dd, li, p, h1, h2, h3, h4");
      if (own) {
        const box = own.getBoundingClientRect();
        if (getComputedStyle(own).display !== "inline" && box.width > 0 && (rect.right > box.right + 1.5 || rect.left < box.left - 1.5)) found.push(`${said} leaves ${name(own)} by ${Math.round(Math.max(rect.right - box.right, box.left - rect.left))} px`);
      }
      // What stays put while the page scrolls lies over it, by intent.
      if (fixed(element)) continue;
      const part = seen(rect, element);
      if (part.right - part.left > 1 && part.bottom - part.top > 1) texts.push({ node, element, said, ...part });
    }
  }
  // On one another. A line of text is taller than its letters, so a few pixels do not count.
  texts.sort((a, b) => a.top - b.top);
  for (let i = 0; i < texts.length; i++) {
    const a = texts[i];
    for (let j = i + 1; j < texts.length && texts[j].top < a.bottom - 4; j++) {
      const b = texts[j];
      if (a.node !== b.node && Math.min(a.right, b.right) - Math.max(a.left, b.left) > 2 && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 4) found.push(`${a.said} and ${b.said} lie on one another`);
    }
  }
  return [...new Set(found)];
});
