// Moving along a run: play and pause, a scrubber, and the instants worth a
// look. Who wants no motion steps from instant to instant. After ten seconds
// of motion it pauses by itself, unless it is to be watched whole.
import { make, radio, say } from "../../dom.js";
import { number, word } from "../../words.js";

/** @typedef {{endS: number, tickS: number, keys: {atS: number, name: string}[]}} Clock */

const still = matchMedia("(prefers-reduced-motion: reduce)");
const longest = 10_000; // milliseconds of motion
let count = 0;

/**
 * @param {HTMLElement} root
 * @param {(time: number) => void} show
 * @param {{whole?: boolean}} [how]
 */
export function player(root, show, { whole = false } = {}) {
  const id = `player-${(count += 1)}`;
  /** @type {Clock} */
  let clock = { endS: 0, tickS: 0.02, keys: [] };
  let time = 0, request = 0, moved = 0;

  const play = make("button", { type: "button", class: "primary play", onclick: () => (request ? pause() : start()) }, word("drive-screen.play"));
  const back = make("button", { type: "button", onclick: () => step(-1) }, word("drive-screen.key-back"));
  const on = make("button", { type: "button", onclick: () => step(1) }, word("drive-screen.key-on"));
  const scrub = make("input", { type: "range", min: 0, step: 0.02, value: 0, "aria-label": word("drive-screen.scrub"), oninput: () => { pause(); go(Number(scrub.value)); } });
  const pace = make("fieldset", { class: "segments pace" }, make("legend", {}, word("drive-screen.pace")),
    ...[["0.1", "tenth"], ["0.25", "quarter"], ["1", "1"]].map(([value, key]) => make("label", {},
      make("input", { type: "radio", name: `${id}-pace`, value, checked: value === "1" }), make("span", {}, word(`drive-screen.pace-${key}`)))));
  const clockText = make("span", { class: "player-clock" });
  const what = make("p", { class: "player-what", role: "status" });
  root.replaceChildren(make("div", { class: "buttons" }, play, back, on), scrub, clockText, pace, what);

  const motion = () => { play.hidden = still.matches; pace.hidden = still.matches; if (still.matches) pause(); };
  still.addEventListener("change", motion);
  motion();

  /** @param {number} to */
  function go(to) {
    time = Math.max(0, Math.min(to, clock.endS));
    scrub.value = String(time);
    const text = word("drive-screen.seconds", { value: number(time, 2) });
    scrub.setAttribute("aria-valuetext", text);
    say(clockText, text);
    show(time);
  }

  /** Names the instant at which the run stands. */
  function tell() {
    const key = clock.keys.findLast((k) => k.atS <= time + 1e-6);
    say(what, key ? word("drive-screen.at", { seconds: number(key.atS, 2), what: key.name }) : "");
  }

  function start() {
    if (time >= clock.endS - 1e-6) go(0);
    moved = 0;
    say(play, word("drive-screen.pause"));
    say(what, "");
    frame(performance.now());
  }

  /** @param {number} last */
  function frame(last) {
    request = requestAnimationFrame((now) => {
      const dt = Math.min(now - last, 100);
      moved += dt;
      go(time + dt / 1000 * Number(radio(pace)));
      if (time >= clock.endS || !whole && moved >= longest) { pause(); tell(); } else frame(now);
    });
  }

  function pause() {
    if (!request) return;
    cancelAnimationFrame(request);
    request = 0;
    say(play, word(time >= clock.endS - 1e-6 ? "drive-screen.again" : "drive-screen.play"));
  }

  /** To the next instant worth a look, or the one before. @param {number} by */
  function step(by) {
    pause();
    const next = by > 0 ? clock.keys.find((k) => k.atS > time + 1e-6) : clock.keys.findLast((k) => k.atS < time - 1e-6);
    go(next ? next.atS : by > 0 ? clock.endS : 0);
    say(play, word("drive-screen.play"));
    tell();
  }

  return {
    /** Another run; it stands where the last one stood. @param {Clock} next */
    load(next) {
      clock = next;
      scrub.max = String(clock.endS);
      go(time);
    },
    pause,
    get time() { return time; },
  };
}
