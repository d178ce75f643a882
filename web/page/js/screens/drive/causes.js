// A start or a stop, cause by cause: the strip, a mark that goes from cause to
// effect, and the same as a list.
import { make, say } from "../../dom.js";
import { word } from "../../words.js";
import { put, room } from "./picture.js";

/** @typedef {import("./types.js").Sequence} Sequence */

const still = matchMedia("(prefers-reduced-motion: reduce)");

/** Milliseconds a link is shown: long enough to be read, no more than one a second. */
const dwell = 1100;
const longest = 10_000; // of motion, then it pauses by itself

/** @param {(selector: string) => HTMLElement} find in the screen */
export function causesView(find) {
  const place = find("#drive-strip"), list = find("#drive-list"), slow = find("#drive-slow");
  /** @type {Sequence} */
  let sequence;
  /** @type {(link: number) => void} */
  let mark = () => {};
  let at = -1, timer = 0, began = 0;

  slow.addEventListener("click", () => (timer ? pause() : start()));
  find("#drive-link-on").addEventListener("click", () => { pause(); go(at + 1); });
  find("#drive-link-back").addEventListener("click", () => { pause(); go(at - 1); });
  find("#drive-link-first").addEventListener("click", () => { pause(); go(0); });
  const motion = () => { slow.hidden = still.matches; if (still.matches) pause(); };
  still.addEventListener("change", motion);
  motion();

  /** @param {number} link */
  function go(link) {
    if (!sequence) return;
    at = Math.max(0, Math.min(link, sequence.links.length - 1));
    const here = sequence.links[at];
    mark(at);
    [...list.children].forEach((item, i) => {
      if (i === at) item.setAttribute("aria-current", "step");
      else item.removeAttribute("aria-current");
    });
    say(find("#drive-link-said"), word("drive-screen.link-said", { at: here.at, what: here.text }));
  }

  function start() {
    if (at >= sequence.links.length - 1) at = -1;
    say(slow, word("drive-screen.pause"));
    began = performance.now();
    const next = () => {
      go(at + 1);
      if (at >= sequence.links.length - 1 || performance.now() - began >= longest) { timer = 0; pause(); return; }
      timer = setTimeout(next, dwell);
    };
    timer = 1;
    next();
  }

  function pause() {
    clearTimeout(timer);
    timer = 0;
    say(slow, word("drive-screen.slow"));
  }

  return {
    size: () => ({ width: room(/** @type {HTMLElement} */ (place.parentElement)) }),
    pause,
    /** @param {Sequence} next */
    show(next) {
      const other = sequence?.title !== next.title || sequence.links.length !== next.links.length;
      sequence = next;
      if (other) { pause(); at = -1; say(find("#drive-link-said"), ""); }
      say(find("#drive-causes-say"), next.say);
      const layer = put(place, next.picture);
      mark = () => {};
      if (layer) {
        const way = layer.add("path", { class: "link-way" }), end = layer.add("circle", { class: "link-end", r: 7 });
        mark = (i) => {
          const link = next.links[i], cause = next.links[link.cause];
          way.setAttribute("d", cause ? `M${cause.x} ${cause.y}V${link.y}H${link.x}` : "");
          end.setAttribute("cx", String(link.x));
          end.setAttribute("cy", String(link.y));
        };
        layer.root.classList.add("links");
        end.setAttribute("cx", "-99");
      }
      list.replaceChildren(...next.links.map((link, i) => make("li", {},
        make("button", { type: "button", onclick: () => { pause(); go(i); } },
          make("span", { class: "list-ms" }, link.at),
          make("span", {}, link.text),
          make("span", { class: "hint" }, link.after)))));
      if (at >= 0) go(at);
    },
  };
}
