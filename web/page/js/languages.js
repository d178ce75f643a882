// The choice of a language, on every page: it leads to the same place in the
// other language, whatever the address says by then.

/** @param {Event} event */
function same(event) {
  const link = event.target instanceof Element ? event.target.closest("#languages a") : null;
  if (!(link instanceof HTMLAnchorElement)) return;
  link.search = location.search;
  link.hash = location.hash;
}
// Before a click, a menu of the browser or a key can follow the link.
for (const kind of ["pointerdown", "focusin", "click"]) addEventListener(kind, same, true);
