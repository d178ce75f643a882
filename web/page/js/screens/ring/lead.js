// Leading a wire by pointer: from a terminal in a drawing to the lamp it is to
// feed. A press that does not move only chooses the terminal.
import { make, say } from "../../dom.js";
import { word } from "../../words.js";

const reach = 26; // pixels from a terminal within which a pointer means it
const slack = 8; // pixels a press may slip, and by which a lamp may be missed

/**
 * @param {HTMLElement} place of the drawing, which may be drawn anew meanwhile
 * @param {{from: (terminal: number) => void, picked: () => void, to: (terminal: number, floor: string) => void}} deeds
 */
export function lead(place, { from, picked, to }) {
  const tag = make("div", { class: "ring-lead", "aria-hidden": "true" });
  /** @type {{terminal: number, x: number, y: number, led: boolean} | null} */
  let hand = null;

  place.addEventListener("pointerdown", (event) => {
    const terminal = event.button === 0 ? nearest(place, event) : -1;
    if (terminal < 0) return;
    hand = { terminal, x: event.clientX, y: event.clientY, led: false };
    place.setPointerCapture(event.pointerId);
    from(terminal);
  });
  place.addEventListener("pointermove", (event) => {
    if (!hand) return;
    hand.led ||= Math.hypot(event.clientX - hand.x, event.clientY - hand.y) > slack;
    if (!hand.led) return;
    const floor = lampAt(place, event);
    say(tag, word(floor === null ? "ring-screen.lead" : "ring-screen.lead-to", { number: hand.terminal, floor: floor ?? "" }));
    tag.classList.toggle("met", floor !== null);
    tag.style.left = `${event.clientX}px`;
    tag.style.top = `${event.clientY}px`;
    if (!tag.isConnected) document.body.append(tag);
  });
  place.addEventListener("pointerup", (event) => {
    if (!hand) return;
    const { terminal, led } = hand;
    drop();
    const floor = led ? lampAt(place, event) : null;
    if (floor !== null) to(terminal, floor);
    else if (!led) picked();
  });
  place.addEventListener("pointercancel", drop);

  function drop() {
    hand = null;
    tag.remove();
  }
}

/**
 * The floor whose lamp, or whose leads, a pointer is on; null for none.
 * @param {HTMLElement} place
 * @param {MouseEvent} event
 */
function lampAt(place, event) {
  for (const [dx, dy] of [[0, 0], [slack, 0], [-slack, 0], [0, slack], [0, -slack]]) {
    const mark = document.elementFromPoint(event.clientX + dx, event.clientY + dy)?.closest('[data-part^="lamp."]');
    if (mark && place.contains(mark)) return /** @type {SVGElement} */ (mark).dataset.part?.slice("lamp.".length) ?? null;
  }
  return null;
}

/**
 * The terminal a pointer means: the nearest within reach, -1 for none.
 * @param {HTMLElement} place
 * @param {MouseEvent} event
 */
function nearest(place, event) {
  let best = reach, found = -1;
  for (const mark of place.querySelectorAll('[data-part^="terminal."]')) {
    const box = mark.getBoundingClientRect();
    const away = Math.hypot(Math.max(box.left - event.clientX, 0, event.clientX - box.right), Math.max(box.top - event.clientY, 0, event.clientY - box.bottom))
      + Math.hypot((box.left + box.right) / 2 - event.clientX, (box.top + box.bottom) / 2 - event.clientY) / 1000;
    if (away >= best) continue;
    best = away;
    found = Number(/** @type {SVGElement} */ (mark).dataset.part?.slice("terminal.".length));
  }
  return found;
}
