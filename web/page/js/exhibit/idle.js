// Nobody there? After a while without a touch the exhibit asks, and when
// nobody answers it goes back to its beginning.
import { now } from "./time.js";

/**
 * @param {() => {idleS: number, warningS: number}} settings
 * @param {object} to
 * @param {() => boolean} to.away whether there is anything to go back from
 * @param {(leftS: number) => void} to.warn called again as the time runs out
 * @param {() => void} to.stay
 * @param {() => void} to.over
 */
export function idle(settings, { away, warn, stay, over }) {
  let last = now();
  let warned = false;

  function touched() {
    last = now();
    if (!warned) return;
    warned = false;
    stay();
  }

  /** The touch that says "still there" does nothing else. */
  function answered() {
    last = now();
    const stop = (/** @type {Event} */ event) => { event.preventDefault(); event.stopPropagation(); };
    addEventListener("click", stop, { capture: true, once: true });
    const lifted = () => {
      for (const kind of ["pointerup", "pointercancel"]) removeEventListener(kind, lifted, true);
      // A touch that slips away brings no click.
      setTimeout(() => { removeEventListener("click", stop, true); touched(); });
    };
    for (const kind of ["pointerup", "pointercancel"]) addEventListener(kind, lifted, true);
  }

  function look() {
    if (!away()) { touched(); return; }
    const { idleS, warningS } = settings();
    const left = last + idleS + warningS - now();
    if (left <= 0) { touched(); over(); } else if (left <= warningS) { warned = true; warn(left); }
  }

  // A page that was left for hours belongs to nobody any more, even if the first
  // thing it hears is a touch.
  addEventListener("pointerdown", () => {
    look();
    if (warned) answered();
    else touched();
  }, true);
  addEventListener("keydown", (event) => {
    look();
    if (warned) { event.preventDefault(); event.stopPropagation(); }
    touched();
  }, true);
  document.addEventListener("visibilitychange", look);
  setInterval(look, 250);
  return { touched };
}
