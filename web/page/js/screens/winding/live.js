// The pictures of a machine as it moves: what stands still is drawn once, what
// moves on top of it, no oftener than the eye needs.
import { drawing } from "../drive/picture.js";

const gap = 80; // milliseconds between two drawings

export class Live {
  #last = 0;
  #drawn = "";

  /**
   * @param {HTMLElement} place
   * @param {string} picture
   * @param {(args: object) => string} draw asks for a drawing
   */
  constructor(place, picture, draw) {
    this.place = place;
    this.picture = picture;
    this.draw = draw;
  }

  #size() { return { picture: this.picture, width: this.place.clientWidth, height: this.place.clientHeight }; }

  /** Lays it out anew: another machine, size or theme. */
  lay() {
    if (!this.place.clientWidth) return;
    const still = drawing(this.draw({ ...this.#size(), moving: false }));
    const text = this.draw({ ...this.#size(), moving: true });
    this.#drawn = text;
    this.place.replaceChildren(quiet(still), quiet(drawing(text)));
  }

  /** Brings what moves up to date. @param {boolean} now without regard to the last time */
  show(now) {
    const time = performance.now();
    if (this.place.childElementCount < 2 || (!now && time - this.#last < gap)) return;
    this.#last = time;
    const text = this.draw({ ...this.#size(), moving: true });
    if (text === this.#drawn) return;
    this.#drawn = text;
    this.place.lastElementChild?.replaceWith(quiet(drawing(text)));
  }
}

/** The place names the picture; the drawing itself says nothing. @param {SVGSVGElement} svg */
function quiet(svg) {
  svg.setAttribute("aria-hidden", "true");
  return svg;
}
