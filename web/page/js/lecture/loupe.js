// The pointer that enlarges: a part of the picture, drawn large in a circle
// beside its place, and kept up to date.
import { say, the } from "../dom.js";
import { StageError } from "../stage.js";

const times = 3.2; // as large as in the picture

/** @param {import("../stage.js").Stage} stage */
export function loupe(stage) {
  const glass = the("lecture-loupe");
  const name = the("lecture-loupe-name");
  let part = "";
  let drawn = 0;

  /** @param {string} wanted */
  function open(wanted) {
    try { stage.ask("choose", wanted); } catch (error) { if (!(error instanceof StageError)) throw error; }
    part = stage.ask("clock").chosen;
    drawn = 0;
    show();
  }

  function close() {
    if (!part) return;
    part = "";
    stage.ask("choose", "");
    show();
  }

  function show() {
    glass.hidden = name.hidden = !part;
    if (!part || performance.now() - drawn < 240) return;
    drawn = performance.now();
    let box;
    try { box = stage.ask("box", part); } catch { close(); return; }
    const place = the("stage").getBoundingClientRect();
    const size = 0.62 * innerHeight;
    const x = (box.x0 + box.x1) / 2, y = (box.y0 + box.y1) / 2;
    const wide = Math.max(size / times, 1.25 * Math.hypot(box.x1 - box.x0, box.y1 - box.y0));
    const svg = new DOMParser().parseFromString(stage.ask("svg"), "image/svg+xml").documentElement;
    svg.setAttribute("viewBox", `${x - wide / 2} ${y - wide / 2} ${wide} ${wide}`);
    svg.removeAttribute("width");
    svg.removeAttribute("height");
    const told = stage.ask("describe", part);
    glass.replaceChildren(document.adoptNode(svg));
    glass.setAttribute("aria-label", told.name);
    say(name, told.state);
    // On the side of the picture where the part is not.
    const left = x > place.width / 2 ? place.left + 0.02 * innerWidth : place.right - size - 0.02 * innerWidth;
    for (const element of [glass, name]) element.style.left = `${left}px`;
    glass.style.top = `${0.5 * (innerHeight - size)}px`;
    name.style.top = `${0.5 * (innerHeight + size) + 0.02 * innerHeight}px`;
  }

  return {
    show, close,
    /** Enlarges the next part (+1) or the one before (-1). @param {1 | -1} by */
    next(by) { open(by > 0 ? "+" : "-"); },
    /** Enlarges what is under a point of the window; a second time it closes. @param {number} x @param {number} y */
    at(x, y) {
      const place = the("stage").getBoundingClientRect();
      const found = stage.ask("at", x - place.left, y - place.top);
      if (!found || found === part) close();
      else open(found);
    },
  };
}
