// The lift as it is with the values of the form: one picture, drawn anew after
// every change, with the part pointed out that the value in focus belongs to.
import { radio, the } from "../../dom.js";
import { word } from "../../words.js";

/** The picture that shows a section. @type {Record<string, string>} */
const shows = { floors: "shaft", lift: "shaft", machine: "shaft", motor: "shaft", brake: "shaft", shaft: "shaft", door: "shaft", selector: "wheel", control: "circuit" };

export class Picture {
  /** @param {(question: {picture: string, width: number, height: number, path: string}) => string} draw */
  constructor(draw) {
    this.draw = draw;
    this.place = the("editor-drawing");
    this.choice = the("editor-picture");
    this.path = "";
    this.section = "";
    this.due = 0;
    this.on = false;
    this.choice.addEventListener("change", () => this.show());
    new ResizeObserver(() => this.show()).observe(this.place);
    // The colours are in the picture: another theme is another picture.
    new MutationObserver(() => this.show()).observe(document.documentElement, { attributeFilter: ["data-theme"] });
  }

  /** Points out what a value belongs to. @param {string} path */
  at(path) {
    if (path === this.path) return;
    this.path = path;
    const section = path.split(/[.[]/)[0];
    if (section !== this.section && shows[section]) radio(this.choice, shows[section]);
    this.section = section;
    this.show();
  }

  /** Draws when the browser next paints, however often it was asked. */
  show() {
    if (!this.on) return;
    this.due ||= requestAnimationFrame(() => {
      this.due = 0;
      const { width, height } = this.place.getBoundingClientRect();
      if (!this.on || width < 1 || height < 1) return;
      const text = this.draw({ picture: radio(this.choice), width: Math.round(width), height: Math.round(height), path: this.path });
      const svg = document.adoptNode(new DOMParser().parseFromString(text, "image/svg+xml").documentElement);
      svg.removeAttribute("aria-hidden");
      svg.setAttribute("role", "img");
      svg.setAttribute("aria-label", word(`editor.picture-${radio(this.choice)}`));
      this.place.replaceChildren(svg);
    });
  }
}
