// The close-up under the picture: a loupe that follows a part of the wheel, and
// the rim unrolled along the travel. Drawn as SVG from the program's answers.
import { the } from "./dom.js";
import { word } from "./words.js";

/** @typedef {import("./stage.js").Stage} Stage */

const often = 60; // milliseconds between two drawings while the machine runs

/** @param {Stage} stage */
export function closeup(stage) {
  const toggle = /** @type {HTMLButtonElement} */ (the("closeup-open"));
  const panel = the("closeup");
  const follow = /** @type {HTMLSelectElement} */ (the("closeup-part"));
  const loupe = the("loupe");
  const rim = the("rim");
  let running = false;
  let last = -Infinity;

  toggle.addEventListener("click", () => {
    panel.hidden = !panel.hidden;
    toggle.setAttribute("aria-expanded", String(!panel.hidden));
    draw();
    if (running) again();
  });
  follow.addEventListener("change", draw);
  new ResizeObserver(draw).observe(rim);

  // Pointing works here as in the picture.
  for (const place of [loupe, rim]) {
    for (const kind of ["pointermove", "click"]) {
      place.addEventListener(kind, (event) => {
        if (!stage.inner) return;
        const { clientX, clientY } = /** @type {PointerEvent} */ (event);
        const box = place.getBoundingClientRect();
        const part = stage.ask(`${place.id}At`, clientX - box.left - place.clientLeft, clientY - box.top - place.clientTop);
        if (!part || part === stage.ask("clock").chosen) return;
        // The picture on the stage need not show the part.
        try { stage.ask("choose", part); } catch { /* nothing lights there */ }
      });
    }
  }

  function draw() {
    if (panel.hidden || !stage.inner || rim.clientWidth === 0) return;
    last = performance.now();
    put(loupe, stage.ask("loupe", follow.value, loupe.clientWidth));
    put(rim, stage.ask("rim", rim.clientWidth));
    loupe.setAttribute("aria-label", word("page.closeup-loupe", { part: follow.selectedOptions[0]?.textContent ?? "" }));
  }

  /** While the machine runs the drawings follow it, a few times a second. */
  function again() {
    requestAnimationFrame((now) => {
      if (!running || panel.hidden) return;
      if (now - last >= often) draw();
      again();
    });
  }

  return {
    draw,
    /** @param {boolean} now whether the machine runs */
    show(now) {
      const began = now && !running;
      running = now;
      draw();
      if (began) again();
    },
  };
}

/**
 * @param {HTMLElement} place
 * @param {string} svg
 */
function put(place, svg) {
  const drawing = new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
  drawing.setAttribute("focusable", "false");
  place.replaceChildren(document.adoptNode(drawing));
}
