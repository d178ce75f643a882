// What the address asks for: a lesson and item, or a screen, after the #; a
// view after the ?.

/** The views that can be opened. */
const views = ["alone", "lecture", "exhibit"];

/**
 * @typedef {object} Wanted
 * @property {string} screen "machine" where none is named
 * @property {string} moment the whole address of a moment of a run, "" for none
 * @property {string} lesson "" for none
 * @property {number} item 1 is the first
 * @property {string} view as written, "alone" when nothing is
 * @property {boolean} known whether the view can be opened
 */

/** @returns {Wanted} */
export function wanted() {
  const view = new URLSearchParams(location.search).get("view") ?? "alone";
  const hash = new URLSearchParams(location.hash.slice(1));
  const item = Number(hash.get("item") ?? 1);
  return {
    screen: hash.get("screen") ?? "machine",
    moment: hash.has("moment") ? location.hash : "",
    lesson: hash.get("lesson") ?? "",
    item: Number.isInteger(item) && item > 0 ? item : 1,
    view,
    known: views.includes(view),
  };
}

/** What was written last. An address that has changed since was changed by the
 * reader, and is about to be followed: it is not written over.
 * @type {string | null} */
let written = null;

/**
 * Writes the open lesson into the address, without a new step in the history.
 * While another screen has the address, only the way back to the machine
 * leads to the lesson.
 * @param {string} lesson "" for none
 * @param {number} item
 */
export function write(lesson, item) {
  const hash = lesson ? `#lesson=${encodeURIComponent(lesson)}&item=${item}` : "";
  document.querySelector('#screens [data-screen="machine"]')?.setAttribute("href", hash || "#");
  if (wanted().screen !== "machine") return;
  if (hash === written) return;
  written = hash;
  if (location.hash !== hash) history.replaceState(null, "", location.pathname + location.search + hash);
}
