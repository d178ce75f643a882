// The events of the run as a list: time and sentence, chosen by part; an event
// that is pressed is gone to. One Tab stop: arrow keys go through the list.
import { make, the } from "./dom.js";
import { capital, number, word } from "./words.js";

/** @typedef {import("./types.js").Clock} Clock */
/** @typedef {import("./types.js").Entry} Entry */
/** @typedef {import("./stage.js").Stage} Stage */

/** As many are listed at once; earlier ones on request. */
const most = 250;

/** What a passenger would notice. */
const main = new Set(["stop", "call", "door"]);

/**
 * @param {Stage} stage
 * @param {(deed: () => void) => void} dare
 */
export function eventList(stage, dare) {
  const panel = the("events");
  const opener = the("events-open");
  const filter = /** @type {HTMLSelectElement} */ (the("events-filter"));
  const list = the("events-list");
  const more = the("events-more");
  /** @type {Entry[]} */
  let entries = [];
  let run = -1;
  let next = 0; // event from which on nothing has been asked yet
  let listed = most;
  let drawn = "";

  const open = (/** @type {boolean} */ on) => {
    panel.hidden = !on;
    the("side").classList.toggle("with-events", on);
    opener.setAttribute("aria-expanded", String(on));
    if (on) { show(stage.ask("clock")); the("events-title").focus(); }
  };
  opener.addEventListener("click", () => open(panel.hidden));
  the("events-close").addEventListener("click", () => { open(false); opener.focus(); });
  panel.addEventListener("keydown", (event) => {
    if (event.key === "Escape") { open(false); opener.focus(); }
  });
  filter.addEventListener("change", () => { listed = most; show(stage.ask("clock")); });
  more.addEventListener("click", () => {
    listed += most;
    show(stage.ask("clock"));
    /** @type {HTMLElement | null} */ (list.querySelector("button"))?.focus();
  });
  list.addEventListener("keydown", (event) => {
    const all = [...list.querySelectorAll("button")];
    const at = all.indexOf(/** @type {HTMLButtonElement} */ (document.activeElement));
    /** @type {Record<string, number>} */
    const to = { ArrowDown: at + 1, ArrowUp: at - 1, Home: 0, End: all.length - 1 };
    const button = all[to[event.key]];
    if (at < 0 || !(event.key in to)) return;
    event.preventDefault();
    if (!button) return;
    for (const other of all) other.tabIndex = -1;
    button.tabIndex = 0;
    button.focus();
  });

  /** Whether the filter lets an event through. @param {Entry} entry */
  function wanted(entry) {
    const [kind, of] = filter.value.split(/:(.*)/, 2);
    switch (kind) {
      case "main": return main.has(entry.kind);
      case "floor": return entry.part.slice(entry.part.indexOf(".") + 1) === of || (entry.kind === "stop" && entry.state === of);
      case "part": return entry.part === of;
    }
    return true;
  }

  /** Offers what can be chosen by, for the parts that have shown anything. */
  function offer() {
    const chosen = filter.value || "main";
    const parts = [...new Set(entries.filter((e) => e.kind === "relay").map((e) => e.part))].sort();
    const floors = /** @type {{floors: {name: string}[]}} */ (stage.ask("building")).floors.map((f) => f.name).reverse();
    const option = (/** @type {string} */ value, /** @type {string} */ text) => make("option", { value, selected: value === chosen }, text);
    const group = (/** @type {string} */ label, /** @type {HTMLElement[]} */ options) => options.length ? [make("optgroup", { label }, ...options)] : [];
    filter.replaceChildren(
      option("main", word("page.events-main")), option("all", word("page.events-all")),
      ...group(word("page.events-floors"), floors.map((f) => option(`floor:${f}`, word("page.value-floor", { floor: f })))),
      ...group(word("page.events-relays"), parts.map((p) => option(`part:${p}`, word(`page.relay-${p.slice("relay.".length)}`)))));
    if (!filter.value) filter.value = "main";
  }

  /** @param {Clock} clock */
  function show(clock) {
    if (panel.hidden) return;
    if (clock.run !== run) { run = clock.run; entries = []; next = 0; listed = most; drawn = ""; }
    const fresh = /** @type {Entry[]} */ (stage.ask("entries", next));
    if (fresh.length) {
      entries.push(...fresh);
      next = fresh[fresh.length - 1].event + 1;
    }
    if (fresh.length || !filter.options.length || drawn === "") offer();
    const all = entries.filter(wanted);
    const some = all.slice(-listed);
    const key = `${run} ${filter.value} ${all.length} ${listed}`;
    if (key !== drawn) {
      drawn = key;
      const had = list.contains(document.activeElement);
      const at = /** @type {HTMLElement | null} */ (document.activeElement)?.dataset?.event;
      list.replaceChildren(...some.map((entry) => make("li", {}, make("button", {
        type: "button", tabindex: "-1", "data-event": entry.event, onclick: () => dare(() => stage.ask("event", entry.event)),
      }, make("span", { class: "when" }, word("page.value-seconds", { value: number(entry.time_s, 2) })), make("span", {}, capital(entry.text))))));
      if (had) /** @type {HTMLElement | null} */ (list.querySelector(`[data-event="${at}"]`))?.focus();
    }
    more.hidden = all.length <= listed;
    the("events-none").hidden = all.length > 0;
    point(clock);
  }

  /** Marks the last event that has happened by now. @param {Clock} clock */
  function point(clock) {
    const all = [...list.querySelectorAll("button")];
    const now = all.findLast((b) => Number(b.dataset.event) < clock.events);
    for (const button of all) {
      if (button === now) button.setAttribute("aria-current", "step");
      else button.removeAttribute("aria-current");
    }
    const stop = all.find((b) => b === document.activeElement) ?? now ?? all[0];
    for (const button of all) button.tabIndex = button === stop ? 0 : -1;
    if (now && !list.contains(document.activeElement)) now.scrollIntoView({ block: "nearest" });
  }

  return { show, toggle: () => open(panel.hidden) };
}
