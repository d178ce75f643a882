// The pointer in the picture: resting on a part chooses it, a press works it,
// a drag moves an enlarged picture, two fingers and the wheel change its size.
// The same for the canvas in its frame and for the drawing in the page.

/** @typedef {import("./stage.js").Stage} Stage */
/** @typedef {{x: number, y: number}} Place a point of the picture's place, CSS pixels */

const slack = 6; // CSS pixels a press may wander before it is a drag
const notch = 0.0016; // of the wheel's way, to a change of size

/**
 * @param {Stage} stage
 * @param {HTMLElement} place what the picture fills
 */
export function pointing(stage, place) {
  /** @type {Map<number, Place>} */
  const fingers = new Map();
  /** @type {Place | null} where a press began that is no drag yet */
  let pressed = null;
  let scale = 1;
  /** @type {Set<HTMLElement>} */
  const surfaces = new Set();

  /** The part at a place, chosen if there is one. @param {Place} p */
  const choose = ({ x, y }) => {
    const part = stage.ask("at", x, y);
    if (part && part !== stage.ask("clock").chosen) stage.ask("choose", part);
    return part;
  };

  /** @param {PointerEvent} event @param {Place} at */
  function down(event, at) {
    if (event.button !== 0) return;
    /** @type {Element} */ (event.currentTarget).setPointerCapture(event.pointerId);
    fingers.set(event.pointerId, at);
    pressed = fingers.size === 1 ? at : null;
  }

  /** @param {PointerEvent} event @param {Place} at */
  function move(event, at) {
    const was = fingers.get(event.pointerId);
    if (!was) {
      if (event.pointerType !== "touch") choose(at);
      return;
    }
    if (pressed && Math.hypot(at.x - pressed.x, at.y - pressed.y) < slack) return;
    pressed = null;
    if (fingers.size === 2) {
      const other = [...fingers].find(([id]) => id !== event.pointerId)?.[1] ?? was;
      const apart = (/** @type {Place} */ p) => Math.hypot(p.x - other.x, p.y - other.y);
      if (apart(was) > 0) stage.ask("zoom", apart(at) / apart(was), (at.x + other.x) / 2, (at.y + other.y) / 2);
    }
    if (scale > 1) stage.ask("pan", (was.x - at.x) / fingers.size, (was.y - at.y) / fingers.size);
    fingers.set(event.pointerId, at);
  }

  /** @param {PointerEvent} event @param {Place} at */
  function up(event, at) {
    fingers.delete(event.pointerId);
    if (!pressed) return;
    pressed = null;
    if (!choose(at)) stage.ask("choose", "");
    // What is pressed need not be anything that can be.
    try { stage.ask("press"); } catch { /* nothing to say */ }
  }

  /** @param {WheelEvent} event @param {Place} at */
  function wheel(event, at) {
    const way = event.deltaY * (event.deltaMode === 1 ? 20 : 1);
    // Rolled away from one the picture grows, unless the page is being read
    // upwards; rolled towards one it shrinks, and when whole the page moves.
    if (!event.ctrlKey && (way > 0 ? scale === 1 : scale === 1 && scrollY > 0)) return;
    event.preventDefault();
    stage.ask("zoom", Math.exp(-way * notch * (event.ctrlKey ? 4 : 1)), at.x, at.y);
  }

  return {
    /**
     * Listens to a surface, once, however often it is told.
     * @param {HTMLElement | null | undefined} surface
     */
    hold(surface) {
      if (!surface || surfaces.has(surface)) return;
      surfaces.add(surface);
      const inFrame = surface.ownerDocument !== document;
      /** @param {MouseEvent} event */
      const at = (event) => {
        if (!inFrame) {
          const box = place.getBoundingClientRect();
          return { x: event.clientX - box.left, y: event.clientY - box.top };
        }
        // The frame is as large in CSS pixels as the place is in the device's.
        const { innerWidth, innerHeight } = /** @type {Window} */ (event.view);
        return { x: event.clientX * place.clientWidth / innerWidth, y: event.clientY * place.clientHeight / innerHeight };
      };
      /** @template {MouseEvent} E @param {string} kind @param {(event: E, at: Place) => void} deed */
      const on = (kind, deed) => surface.addEventListener(kind, (event) => {
        if (stage.inner) deed(/** @type {E} */ (event), at(/** @type {E} */ (event)));
      }, { passive: false });
      on("pointerdown", down);
      on("pointermove", move);
      on("pointerup", up);
      // Ebitengine would keep the wheel from ever moving the page.
      const view = inFrame ? /** @type {Window} */ (surface.ownerDocument.defaultView) : surface;
      view.addEventListener("wheel", (event) => {
        event.stopImmediatePropagation();
        if (stage.inner) wheel(/** @type {WheelEvent} */ (event), at(/** @type {WheelEvent} */ (event)));
      }, { capture: true, passive: false });
      surface.addEventListener("pointercancel", (event) => { fingers.delete(event.pointerId); pressed = null; });
      surface.style.touchAction = scale > 1 ? "none" : "pan-y";
    },
    /** A finger moves the page while the picture is whole, the picture when it is not. @param {number} now */
    scaled(now) {
      if (now === scale) return;
      scale = now;
      for (const surface of surfaces) surface.style.touchAction = now > 1 ? "none" : "pan-y";
    },
  };
}
