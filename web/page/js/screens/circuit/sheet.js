// The drawing of the circuit, and what of it is pointed at.
import { the } from "../../dom.js";
import { word } from "../../words.js";

/** @typedef {import("./types.js").Facts} Facts */
/** @typedef {import("./types.js").Spot} Spot */
/** @typedef {import("./types.js").Target} Target */

export class Sheet {
  /** @param {(question: object) => {svg: string, width: number, height: number, spots: Spot[]}} ask */
  constructor(ask) {
    this.ask = ask;
    this.frame = the("circuit-sheet");
    this.place = the("circuit-drawing");
    /** @type {Facts | null} */
    this.facts = null;
    /** @type {Spot[]} */
    this.spots = [];
    /** @type {(spot: Spot) => void} */
    this.picked = () => {};
    /** @type {() => "leaf" | "node"} */
    this.wants = () => "leaf";
    this.place.addEventListener("click", (event) => {
      const spot = this.#under(event);
      if (spot) this.picked(spot);
    });
    this.place.addEventListener("pointermove", (event) => this.#hint(event));
  }

  /** @param {{floor: string, target: Target | null, probes: number[], joints: boolean, lit: number}} what */
  draw(what) {
    const width = this.frame.clientWidth - 14;
    if (width < 60) return;
    const drawn = this.ask({ width, ...what });
    this.spots = drawn.spots;
    const svg = document.adoptNode(new DOMParser().parseFromString(drawn.svg, "image/svg+xml").documentElement);
    svg.removeAttribute("aria-hidden");
    svg.setAttribute("role", "img");
    svg.setAttribute("aria-label", word("circuit.sheet-label"));
    this.place.replaceChildren(svg);
  }

  /**
   * Brings leaves or a node into sight, the first if not all find room.
   * @param {number[]} which
   * @param {"Leaf" | "Node"} [kind]
   */
  bring(which, kind = "Leaf") {
    const boxes = which.map((n) => this.spots.find((spot) => n >= 0 && spot[kind] === n)).filter((spot) => spot !== undefined);
    if (boxes.length === 0) return;
    const top = Math.min(...boxes.map((b) => b.Y0)), bottom = Math.max(...boxes.map((b) => b.Y1));
    const { scrollTop, clientHeight } = this.frame;
    if (top >= scrollTop && bottom <= scrollTop + clientHeight) return;
    this.frame.scrollTop = Math.max(0, (bottom - top < clientHeight ? (top + bottom - clientHeight) / 2 : top - 20));
  }

  /** What lies under the pointer; a joint counts from a little way off. @param {MouseEvent} event */
  #under(event) {
    const svg = this.place.querySelector("svg");
    if (!svg) return undefined;
    const box = svg.getBoundingClientRect();
    const x = event.clientX - box.x, y = event.clientY - box.y;
    if (this.wants() === "leaf") {
      return this.spots.find((spot) => spot.Leaf >= 0 && x >= spot.X0 && x <= spot.X1 && y >= spot.Y0 && y <= spot.Y1);
    }
    let best, least = 18;
    for (const spot of this.spots) {
      if (spot.Node < 0) continue;
      const away = Math.hypot(x - (spot.X0 + spot.X1) / 2, y - (spot.Y0 + spot.Y1) / 2);
      if (away < least) [best, least] = [spot, away];
    }
    return best;
  }

  /** @param {MouseEvent} event */
  #hint(event) {
    const spot = this.#under(event);
    this.place.querySelector("svg")?.classList.toggle("on-spot", spot !== undefined);
    const name = !spot || !this.facts ? "" : spot.Leaf >= 0 ? this.facts.leaves[spot.Leaf].name : this.facts.nodes.find(({ node }) => node === spot.Node)?.name ?? "";
    if (this.place.title !== name) this.place.title = name;
  }
}
