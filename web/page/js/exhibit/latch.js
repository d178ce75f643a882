// No way from the exhibit to the browser around it: no menu, no dragging or
// marking, no zoom, no keys that belong to the browser.

export function latch() {
  const stop = (/** @type {Event} */ event) => event.preventDefault();
  for (const kind of ["contextmenu", "dragstart", "selectstart", "gesturestart", "dblclick"]) addEventListener(kind, stop, true);
  addEventListener("wheel", (event) => { if (event.ctrlKey) event.preventDefault(); }, { capture: true, passive: false });
  addEventListener("touchmove", (event) => { if (event.touches.length > 1 && event.cancelable) event.preventDefault(); }, { capture: true, passive: false });
  addEventListener("keydown", (event) => { if (browsers(event)) event.preventDefault(); }, true);
  // Files dropped on the page would take its place, or the machine's.
  for (const kind of ["dragover", "drop"]) addEventListener(kind, (event) => { event.preventDefault(); event.stopPropagation(); }, true);
}

/** @param {KeyboardEvent} event */
function browsers(event) {
  return event.ctrlKey || event.metaKey || event.altKey || /^F\d+$/.test(event.key) || /^Browser|^Launch/.test(event.key)
    || ["Backspace", "ContextMenu", "Help"].includes(event.key);
}
