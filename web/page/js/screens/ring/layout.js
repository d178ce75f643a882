// Laying out the ring: its values, its joins by hand, what comes of them, and
// the way into the building. The text of a building file is the one thing that
// is changed; every change makes a new one, and undo goes back to the last.
import { make, say } from "../../dom.js";
import { keep, recall } from "../../kept.js";
import { save, savePicture } from "../../save.js";
import { number, word } from "../../words.js";
import { told } from "../building/row.js";
import { put, room } from "../drive/picture.js";
import { lead } from "./lead.js";

/** @typedef {import("./types.js").Form} Form */
/** @typedef {import("./types.js").Laid} Laid */
/** @typedef {import("./types.js").Page} Page */

const pause = 300; // milliseconds without a key before a typed figure is tried
const most = 60; // steps back
const kept = "ring-bench"; // where the browser keeps a ring that is only on the bench

/**
 * @param {(selector: string) => HTMLElement} find in the screen
 * @param {(action: string, args?: object) => any} go asks the program
 * @param {(deed: () => void) => void} refuse does something that may be refused
 * @param {() => void} changed called when the ring has been put into the building
 */
export function layoutView(find, go, refuse, changed) {
  const fields = [...find(".ring-fields").querySelectorAll("[data-path]")].map((place) => ({
    path: /** @type {HTMLElement} */ (place).dataset.path ?? "",
    step: /** @type {HTMLElement} */ (place).dataset.step ?? "any",
    input: /** @type {HTMLInputElement} */ (place.querySelector("input")),
    hint: /** @type {HTMLElement} */ (place.querySelector(".hint")),
  }));
  const terminal = /** @type {HTMLSelectElement} */ (find("#ring-terminal")), joined = /** @type {HTMLSelectElement} */ (find("#ring-joined"));
  const car = /** @type {HTMLInputElement} */ (find("#ring-car"));
  const button = (/** @type {string} */ id) => /** @type {HTMLButtonElement} */ (find(`#ring-${id}`));
  /** @type {Form} */
  let form;
  /** @type {Laid} */
  let laid;
  /** @type {string[]} texts before the present one */
  let before = [];
  let text = "", chosen = 0, waiting = 0, drawing = 0;
  let noted = ""; // what became of the building, until the ring is changed again
  let inHand = ""; // the field whose typing has a step to go back to already

  const look = () => ({ text, terminal: chosen, carM: Number(car.value), width: room(/** @type {HTMLElement} */ (find("#ring-strip").parentElement)), beside: room(find("#ring-picture")) });

  /**
   * Does something to the ring and shows what comes of it.
   * @param {object} [change]
   * @param {string} [field] whose typing this is
   */
  function lay(change = {}, field = "") {
    clearTimeout(waiting);
    waiting = 0;
    refuse(() => {
      const next = /** @type {Laid} */ (go("lay", { ...look(), ...change }));
      if (next.text !== text) noted = "";
      if (next.text !== text && (field === "" || field !== inHand)) before.push(text);
      inHand = field;
      text = next.text;
      remember();
      render(next);
    });
  }

  function remember() {
    before = before.slice(-most);
    if (text !== form.text || before.length > 0) keep(kept, { of: form.text, text, before });
    else if (recall(kept)?.of === form.text) keep(kept, null);
  }

  /** @param {Laid} next */
  function render(next) {
    laid = next;
    for (const { path, input } of fields) {
      const cell = next.values[path];
      const value = cell?.value ?? "";
      if (document.activeElement !== input || Number(input.value) !== Number(value)) input.value = value;
      input.dataset.shown = value;
      const wrong = next.faults.some((fault) => fault.path === path && !fault.warning);
      input.setAttribute("aria-invalid", String(wrong));
    }
    const wrong = next.faults.filter((fault) => !fault.warning).length;
    say(find("#ring-state"), wrong > 0 ? word("ring-screen.state-wrong", { count: wrong })
      : next.changed ? word("ring-screen.state-changed") : noted || word("ring-screen.state-same"));
    find("#ring-state").dataset.state = wrong > 0 ? "wrong" : next.changed ? "changed" : "same";
    button("put").disabled = !next.changed || !next.sound;
    button("reset").disabled = !next.changed;
    button("undo").disabled = before.length === 0;
    const faults = find("#ring-faults");
    faults.hidden = next.faults.length === 0 && next.page !== null;
    faults.replaceChildren(...next.faults.map((fault) => told(fault, (edit) => lay(edit))),
      ...(next.page ? [] : [make("p", { class: "hint" }, word("ring-screen.last"))]));
    for (const select of [terminal, joined]) select.disabled = next.page === null;
    button("clear").disabled = !next.page?.joins.length;
    if (next.page) tables(next.page);
    if (next.advice) advise(next.advice);
    if (next.page) {
      find("#ring-about").replaceChildren(...next.about.map((line) => make("p", {}, line)));
      pictures(next);
    }
  }

  /** @param {Page} page */
  function tables(page) {
    chosen = Math.max(0, Math.min(chosen, page.terminals.length - 1));
    const hand = new Set(page.joins.map((join) => join.terminal));
    terminal.replaceChildren(...page.terminals.map(({ index, floor }) =>
      make("option", { value: index }, word(floor ? "ring-screen.option" : "ring-screen.option-blank", { number: index, floor }))));
    find("#ring-schedule tbody").replaceChildren(...page.terminals.map((row) => make("tr", { "data-terminal": row.index, class: row.floor ? "joined" : "" },
      make("th", { scope: "row" }, make("button", { type: "button", onclick: () => choose(row.index) }, String(row.index))),
      make("td", {}, number(row.angle_deg, 1)), make("td", {}, number(row.height_m, 3)),
      make("td", {}, row.floor || word("ring-screen.blank"), ...(hand.has(row.index) ? [" ", make("span", { class: "hint" }, word("ring-screen.by-hand"))] : [])))));
    const none = word("ring-screen.none");
    find("#ring-boundaries tbody").replaceChildren(...page.boundaries.map((row) => {
      const dark = row.dark_m > 0;
      const sight = dark ? row.sight : "none";
      return make("tr", {}, make("th", { scope: "row" }, word("ring-screen.between", row)), make("td", {}, String(row.blank_terminals)),
        make("td", {}, dark ? number(row.dark_m, 3) : none), make("td", {}, dark ? number(row.dark_s, 2) : none),
        make("td", {}, dark ? number(row.dark_slow_s, 2) : none), make("td", {}, row.overlap_m > 0 ? number(row.overlap_m, 3) : none),
        make("td", { class: sight === "seen" ? "met" : "missed" }, word(`ring-screen.sight-${sight}`)));
    }));
    find("#ring-lamps tbody").replaceChildren(...page.lamps.map((row) => make("tr", {},
      make("th", { scope: "row" }, row.floor), make("td", {}, number(row.lit_m, 3)), make("td", {}, number(row.lit_s, 2)))));
    find("#ring-notes").replaceChildren(...(page.notes.length ? page.notes : [word("ring-screen.notes-none")]).map((note) => make("li", {}, note)));
    mark();
  }

  /** @param {import("./types.js").Advice} advice */
  function advise(advice) {
    find("#ring-advice").replaceChildren(
      ...advice.argument.map((line) => make("p", {}, line)),
      ...advice.proposals.map(({ says }, index) => make("div", { class: "proposal" },
        make("p", {}, says.join(" ")),
        make("button", { type: "button", "aria-label": `${word("ring-screen.use")}: ${says[0]}`, onclick: () => {
          lay({ do: "use", index });
          say(find("#ring-said"), word("ring-screen.used"));
          button("put").focus();
        } }, word("ring-screen.use")))));
  }

  /** @param {{ring: import("./types.js").Picture, strip: import("./types.js").Picture}} drawn */
  function pictures(drawn) {
    put(find("#ring-picture"), drawn.ring);
    put(find("#ring-strip"), drawn.strip);
    const at = word("ring-screen.at", { height: number(Number(car.value), 2) });
    say(find("#ring-car-at"), at);
    car.setAttribute("aria-valuetext", at);
  }

  /** Draws once a frame at most. */
  function draw() {
    drawing ||= requestAnimationFrame(() => {
      drawing = 0;
      if (laid?.page) refuse(() => pictures(go("draw", look())));
    });
  }

  /** Shows which terminal is chosen, and what it feeds. */
  function mark() {
    const row = laid.page?.terminals[chosen];
    if (!row) return;
    terminal.value = String(chosen);
    joined.value = row.floor;
    for (const line of find("#ring-schedule tbody").children) {
      const here = /** @type {HTMLElement} */ (line).dataset.terminal === String(chosen);
      line.classList.toggle("chosen", here);
      line.querySelector("button")?.setAttribute("aria-pressed", String(here));
    }
  }

  /** @param {number} index */
  function choose(index) {
    chosen = index;
    mark();
    draw();
  }

  // --- what the reader does -----------------------------------------------------

  for (const { path, input } of fields) {
    const send = () => {
      clearTimeout(waiting);
      if (input.value !== input.dataset.shown && !(input.value === "" && input.validity.badInput)) lay({ do: "set", path, value: input.value }, path);
    };
    input.addEventListener("input", () => { clearTimeout(waiting); waiting = setTimeout(send, pause); });
    input.addEventListener("change", () => { send(); inHand = ""; });
  }
  terminal.addEventListener("change", () => choose(Number(terminal.value)));
  /** @param {number} at @param {string} floor "" for none */
  function join(at, floor) {
    lay({ do: "move", terminal: at, floor });
    say(find("#ring-said"), word(floor ? "ring-screen.moved" : "ring-screen.moved-blank", { number: at, floor }));
  }
  joined.addEventListener("change", () => join(chosen, joined.value));
  button("clear").addEventListener("click", () => { lay({ do: "clear" }); terminal.focus(); });
  for (const place of [find("#ring-picture"), find("#ring-strip")]) {
    lead(place, { from: choose, to: join, picked: () => joined.focus({ preventScroll: true }) });
  }
  car.addEventListener("input", draw);
  button("undo").addEventListener("click", () => back(before.pop()));
  button("reset").addEventListener("click", () => { const to = form.text; if (to !== text) before.push(text); back(to); });
  button("put").addEventListener("click", () => refuse(() => {
    const note = go("put", { text });
    keep("building", { text });
    changed();
    noted = word(note ? "ring-screen.put-noted" : "ring-screen.put-done", { building: form.building, note });
    lay();
  }));
  for (const at of find(".ring-lay").querySelectorAll("[data-file]")) {
    const which = /** @type {HTMLElement} */ (at).dataset.file ?? "";
    at.addEventListener("click", () => refuse(() => {
      const written = go("file", { ...look(), which });
      if (which === "sheet") savePicture("ring.svg", written);
      else save(`ring.${which}`, written, which === "csv" ? "text/csv" : "application/json");
    }));
  }

  /** Lays out an earlier text. @param {string | undefined} earlier */
  function back(earlier) {
    if (earlier === undefined) return;
    text = earlier;
    inHand = "";
    for (const { input } of fields) if (document.activeElement === input) input.blur();
    lay();
  }

  return {
    /** Begins with the ring of the building on the stage. @param {Form} next */
    fill(next) {
      form = next;
      const had = recall(kept);
      const same = had?.of === form.text && typeof had.text === "string" && Array.isArray(had.before);
      text = same ? had.text : form.text;
      before = same ? had.before.map(String) : [];
      noted = "";
      chosen = 0;
      car.max = String(form.travel_m);
      car.value = "0";
      for (const { path, step, input, hint } of fields) {
        const field = form.fields.find((f) => f.path === path);
        if (!field) continue;
        input.min = String(field.least);
        input.max = String(field.most);
        input.step = step;
        hint.id = `${input.id}-range`;
        say(hint, field.range);
        hint.title = field.why;
        input.setAttribute("aria-describedby", hint.id);
      }
      joined.replaceChildren(make("option", { value: "" }, word("ring-screen.blank")),
        ...form.floors.toReversed().map((floor) => make("option", { value: floor.name }, word("ring-screen.floor", { floor: floor.name }))));
      say(find("#ring-of"), word("ring-screen.of", { building: form.building }));
      say(find("#ring-caution"), form.caution);
    },
    lay,
    /** The building on the stage is the one on the bench. @param {Form} next */
    adopt(next) { form = next; remember(); },
    get text() { return text; },
  };
}
