// The whole run as a strip: the car's way over time, where it rested, when it
// was called. It is for the eye; the list of events says the same in words.

/** @typedef {import("./types.js").Strip} Strip */

/** The slider's thumb reaches this far beyond its middle, CSS pixels. */
const inset = 12;
const height = 46;
const ticksY = 32; // below: the seconds
const name = "http://www.w3.org/2000/svg";

/** Lengths a strip can have, seconds: it grows by steps, not all the time. */
const spans = [20, 30, 45, 60, 90, 120, 180, 240, 300, 450, 600, 900, 1200, 1800, 2700, 3600, 5400, 7200, 10800, 14400];

/** How many seconds a strip shows for a run of so many. @param {number} end */
export function span(end) {
  return spans.find((s) => s >= end) ?? Math.ceil(end / 3600) * 3600;
}

/**
 * @param {Element} svg filled anew
 * @param {Strip} strip
 * @param {number} to seconds shown
 * @param {number} width CSS pixels
 */
export function drawStrip(svg, strip, to, width) {
  const x = (/** @type {number} */ t) => inset + (t / to) * (width - 2 * inset);
  const y = (/** @type {number} */ m) => ticksY - 7 - (strip.topM > 0 ? m / strip.topM : 0) * (ticksY - 15);
  svg.setAttribute("viewBox", `0 0 ${width} ${height}`);
  /** @type {SVGElement[]} */
  const marks = [
    mark("rect", { class: "strip-ground", x: inset, y: 1, width: width - 2 * inset, height: ticksY - 1 }),
    mark("rect", { class: "strip-past", x: inset, y: 1, width: Math.max(0, x(strip.endS) - inset), height: ticksY - 1 }),
    ...ticks(to, width, x),
    ...ways(strip.path, x, y),
  ];
  for (const stop of strip.stops) marks.push(...rest(stop, x, y));
  for (const call of strip.calls) {
    marks.push(mark("circle", { class: call.toS < 0 ? "strip-call waits" : "strip-call", cx: x(call.fromS), cy: y(call.heightM), r: 4 }));
  }
  svg.replaceChildren(...marks);
}

/**
 * Marks of the seconds, as many as find room.
 * @param {number} to
 * @param {number} width
 * @param {(t: number) => number} x
 */
function ticks(to, width, x) {
  const every = [5, 10, 15, 30, 60, 120, 300, 600, 1200, 1800, 3600].find((s) => (s / to) * width > 44) ?? 7200;
  const marks = [];
  for (let t = 0; t <= to; t += every) {
    marks.push(mark("line", { class: "strip-tick", x1: x(t), y1: ticksY, x2: x(t), y2: ticksY + 3 }));
    marks.push(mark("text", { class: "strip-second", x: x(t), y: height - 1.5 }, String(t)));
  }
  return marks;
}

/**
 * The car's way: up a solid line, down a dashed one.
 * @param {number[][]} path
 * @param {(t: number) => number} x
 * @param {(m: number) => number} y
 */
function ways(path, x, y) {
  const marks = [];
  for (let i = 1, from = 0; i < path.length; i++) {
    const way = Math.sign(path[i][1] - path[i - 1][1]);
    const next = i + 1 < path.length ? Math.sign(path[i + 1][1] - path[i][1]) : NaN;
    if (way === next) continue;
    const points = path.slice(from, i + 1).map(([t, m]) => `${x(t).toFixed(1)},${y(m).toFixed(1)}`).join(" ");
    marks.push(mark("polyline", { class: way > 0 ? "strip-up" : way < 0 ? "strip-down" : "strip-still", points }));
    from = i;
  }
  return marks;
}

/**
 * A stretch at rest, as the chart shows a lit position lamp: with the floor's
 * name where there is room for it.
 * @param {{floor: string, heightM: number, fromS: number, toS: number}} stop
 * @param {(t: number) => number} x
 * @param {(m: number) => number} y
 */
function rest({ floor, heightM, fromS, toS }, x, y) {
  const wide = Math.max(2, x(toS) - x(fromS));
  const marks = [mark("rect", { class: "strip-rest", x: x(fromS), y: y(heightM) - 6.5, width: wide, height: 13 })];
  if (wide > 7 * floor.length + 6) marks.push(mark("text", { class: "strip-floor", x: x(fromS) + wide / 2, y: y(heightM) + 4.2 }, floor));
  return marks;
}

/**
 * @param {string} kind
 * @param {Record<string, string | number>} attributes
 * @param {string} [text]
 */
function mark(kind, attributes, text = "") {
  const element = document.createElementNS(name, kind);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(typeof value === "number" ? Math.round(value * 10) / 10 : value));
  element.textContent = text;
  return element;
}
