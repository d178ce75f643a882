// The machine's state as tables, equal to the snapshot: every cell carries its
// signal and its value, and shows the value in words.
import { make, say, the } from "./dom.js";
import { number, word } from "./words.js";

/** @typedef {import("./types.js").Snapshot} Snapshot */
/** @typedef {import("./types.js").Building} Building */

/** @type {[string, (s: Snapshot) => string | number, (v: any) => string][]} */
const car = [
  ["time_s", (s) => s.time_s, (v) => word("page.value-seconds", { value: number(v, 2) })],
  ["car.position_m", (s) => s.car.position_m, (v) => word("page.value-metres", { value: number(v, 3) })],
  ["car.speed_m_s", (s) => s.car.speed_m_s, (v) => word("page.value-speed", { value: number(v, 2) })],
  ["stop", (s) => s.car.stop, (v) => (v === "-" ? word("page.value-nowhere") : word("page.value-floor", { floor: v }))],
  ["door", (s) => s.car.door, (v) => word(`page.value-${v}`)],
];

/** @type {[string, (s: Snapshot, floor: string) => string | number, string][]} */
const columns = [
  ["call", (s, f) => s.calls[f], "call"],
  ["lamp", (s, f) => s.lamps[f], "lamp"],
  ["direction", (s, f) => s.switches[`direction.${f}`], "switch"],
  ["rim", (s, f) => s.switches[`rim.${f}`], "contact"],
  ["advance-up", (s, f) => s.switches[`advance-up.${f}`], "contact"],
  ["advance-down", (s, f) => s.switches[`advance-down.${f}`], "contact"],
];

/** Relays in the order in which a call passes through them. */
const relays = ["safety", "up-line", "down-line", "direction", "start", "up", "down", "up-contactor", "down-contactor", "fast", "slow", "brake", "stop", "level", "door", "bound-up", "bound-down"];

/** @type {Map<string, HTMLTableCellElement>} */
const cells = new Map();

/** @param {string} signal */
function cell(signal) {
  const made = make("td", { "data-signal": signal });
  cells.set(signal, made);
  return made;
}

/**
 * Lays the tables out for a building.
 * @param {Building} building
 * @param {Snapshot} snapshot
 */
export function layTables(building, snapshot) {
  cells.clear();
  const rows = (/** @type {string} */ id, /** @type {HTMLElement[]} */ list) => the(id).querySelector("tbody")?.replaceChildren(...list);
  const head = (/** @type {string} */ text) => make("th", { scope: "row" }, text);
  rows("state-car", car.map(([signal]) => make("tr", {}, head(word(`page.signal-${signal.replace(/[._]/g, "-")}`)), cell(signal))));
  rows("state-relays", relays.filter((name) => name in snapshot.relays).map((name) =>
    make("tr", {}, head(word(`page.relay-${name}`)), cell(`relay.${name}`))));
  rows("state-landings", building.floors.toReversed().map(({ name }) =>
    make("tr", {}, head(name), ...columns.map(([signal]) => cell(`${signal}.${name}`)))));
  fillTables(building, snapshot);
}

/**
 * Writes a snapshot into the tables.
 * @param {Building} building
 * @param {Snapshot} snapshot
 */
export function fillTables(building, snapshot) {
  for (const [signal, read, words] of car) fill(signal, read(snapshot), words);
  for (const [name, value] of Object.entries(snapshot.relays)) fill(`relay.${name}`, value, (v) => word(v ? "page.relay-in" : "page.relay-out"));
  for (const { name } of building.floors) {
    for (const [signal, read, kind] of columns) fill(`${signal}.${name}`, read(snapshot, name), (v) => word(`page.${kind}-${v}`));
  }
}

/**
 * @param {string} signal
 * @param {string | number} value
 * @param {(v: any) => string} words
 */
function fill(signal, value, words) {
  const td = cells.get(signal);
  if (!td || td.dataset.value === String(value)) return;
  td.dataset.value = String(value);
  say(td, words(value));
}
