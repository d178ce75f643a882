// Pictures that come drawn, and the layer on top of one on which a script
// moves marks without touching the drawing.

/**
 * @typedef {object} Frame
 * @property {number} x0 @property {number} x1 @property {number} y0 @property {number} y1
 * @property {number} left @property {number} right @property {number} upper @property {number} lower
 */

/** @typedef {{title: string, desc: string, svg: string, width: number, height: number, frames?: Frame[]}} Picture */

const space = "http://www.w3.org/2000/svg";

/**
 * Reads a drawing.
 * @param {string} svg
 */
export function drawing(svg) {
  return /** @type {SVGSVGElement} */ (/** @type {unknown} */ (document.adoptNode(new DOMParser().parseFromString(svg, "image/svg+xml").documentElement)));
}

/**
 * Puts a picture into its place, with a layer on top.
 * @param {HTMLElement} place
 * @param {Picture} picture one without a drawing empties the place
 * @returns {Layer | null}
 */
export function put(place, picture) {
  place.hidden = !picture.svg;
  if (!picture.svg) { place.replaceChildren(); return null; }
  const layer = new Layer(picture);
  place.replaceChildren(drawing(picture.svg), layer.root);
  return layer;
}

/** How wide a picture may be in its place, CSS pixels. @param {HTMLElement} place */
export function room(place) {
  const shown = place.hidden ? place.parentElement ?? place : place;
  return Math.max(320, Math.floor(shown.clientWidth));
}

/**
 * @param {string} name
 * @param {Record<string, string | number>} [attributes]
 */
export function shape(name, attributes = {}) {
  const element = document.createElementNS(space, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value));
  return element;
}

/** Marks over a picture, in the picture's own units. */
export class Layer {
  /** @param {Picture} picture */
  constructor(picture) {
    this.picture = picture;
    this.root = shape("svg", { class: "over", viewBox: `0 0 ${picture.width} ${picture.height}`, "aria-hidden": "true" });
  }

  /**
   * Adds a mark and returns it.
   * @param {string} name
   * @param {Record<string, string | number>} [attributes]
   */
  add(name, attributes) {
    const element = shape(name, attributes);
    this.root.append(element);
    return element;
  }

  /** A line across all panels that stands at an instant of the time axis. */
  cursor() {
    const frames = this.picture.frames ?? [];
    const first = frames[0], last = frames[frames.length - 1];
    const line = this.add("line", { class: "cursor", y1: first.y0, y2: last.y1 });
    return (/** @type {number} */ time) => {
      const x = first.x0 + (time - first.left) / (first.right - first.left) * (first.x1 - first.x0);
      line.setAttribute("x1", String(x));
      line.setAttribute("x2", String(x));
    };
  }

  /**
   * A mark that runs along points, one a tick; gone behind the last one.
   * @param {[number, number][]} path
   * @param {string} kind of mark, for the style sheet
   * @param {number} radius
   */
  runner(path, kind, radius) {
    const mark = this.add("circle", { class: kind, r: radius });
    return (/** @type {number} */ tick) => {
      const i = Math.max(0, Math.min(Math.floor(tick), path.length - 1));
      const a = path[i], b = path[Math.min(i + 1, path.length - 1)], share = Math.min(tick - i, 1);
      if (!a) { mark.setAttribute("visibility", "hidden"); return; }
      mark.setAttribute("cx", String(a[0] + share * (b[0] - a[0])));
      mark.setAttribute("cy", String(a[1] + share * (b[1] - a[1])));
    };
  }
}
