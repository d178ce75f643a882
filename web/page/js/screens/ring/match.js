// Matching: what a passenger saw, tapped or from a file; the fit; and what it
// comes to, the panel seen and the fitted one in step.
import { make, radio, say } from "../../dom.js";
import { Errand } from "../../errand.js";
import { keep, recall } from "../../kept.js";
import { save, savePicture } from "../../save.js";
import { capital, number, word } from "../../words.js";
import { put, room } from "../drive/picture.js";
import { player } from "../drive/player.js";
import { lampPanel } from "./lamps.js";
import { recorder } from "./recorder.js";

/** @typedef {import("./types.js").Form} Form */
/** @typedef {import("./types.js").Answer} Answer */
/** @typedef {import("./types.js").Matched} Matched */

const kept = "ring-seen"; // where the browser keeps what is being noted

/**
 * @param {(selector: string) => HTMLElement} find in the screen
 * @param {(action: string, args?: object) => any} go asks the program
 * @param {(deed: () => void) => void} refuse does something that may be refused
 * @param {{text: () => string, tried: () => void}} use the text on the bench, and the way there with a fitted ring
 */
export function matchView(find, go, refuse, use) {
  const source = find("#ring-source"), area = /** @type {HTMLTextAreaElement} */ (find("#ring-csv")), busy = find("#ring-busy");
  const field = (/** @type {string} */ id) => /** @type {HTMLInputElement} */ (find(`#ring-${id}`));
  const seen = lampPanel(find("#ring-seen"), word("ring-screen.seen")), fitted = lampPanel(find("#ring-fitted"), word("ring-screen.fitted"));
  const back = /** @type {HTMLButtonElement} */ (find("#ring-csv-back"));
  /** @type {{text: string, speedMS: number, speedErrorMS: number} | null} what the answer is to */
  let asked = null;
  let before = ""; // the text that was in the place of this one
  /** @type {string[]} */
  let floors = [];
  /** @type {(time: number) => void} */
  let move = () => {};
  const play = player(find('[data-player="ring"]'), (time) => move(time), { whole: true });
  const taps = recorder(find, older);

  const observed = () => ({ text: radio(source) === "tap" ? taps.csv() : area.value, speedMS: Number(field("speed").value), speedErrorMS: Number(field("speed-error").value) });

  /** What is noted has changed, so that what is shown is no longer its answer. */
  function older() {
    keep(kept, { source: radio(source), csv: area.value, speed: field("speed").value, error: field("speed-error").value });
    const now = observed();
    find("#ring-older").hidden = find("#ring-answer").hidden || JSON.stringify(now) === JSON.stringify(asked);
  }

  /** Shows the source that is chosen. */
  function turn() {
    for (const name of ["tap", "csv"]) find(`#ring-from-${name}`).hidden = radio(source) !== name;
    older();
  }

  // Beside everything else: it can be watched and broken off.
  const errand = new Errand((step) => look(step), (matched) => refuse(() => {
    if (["refused", "cancelled", "failed"].includes(matched.state)) asked = null;
    tell(matched.problems);
    watch(matched, true);
  }));

  function fit() {
    play.pause();
    const before = asked;
    asked = observed();
    refuse(() => {
      try { errand.start(); } catch (error) { asked = before; throw error; }
    });
  }

  /** @returns {Matched} */
  const look = (/** @type {object} */ step) => go("match", { ...asked, ...step, width: width() });

  /** Shows how far a fit is, and its answer at the end. @param {Matched} matched @param {boolean} fresh */
  function watch({ state, done, of, answer, reason }, fresh) {
    const running = state === "running";
    busy.hidden = !running;
    if (running) find("#ring-answer").hidden = true;
    say(find("#ring-fit-said"), state === "cancelled" ? word("ring-screen.broken-off") : state === "failed" ? word("ring-screen.failed", { reason }) : "");
    const bar = /** @type {HTMLProgressElement} */ (busy.querySelector("progress"));
    bar.value = of > 0 ? done / of : 0;
    if (answer) render(answer, fresh);
  }

  // The answer may still be out of sight; what it stands in is not.
  const width = () => room(find(".ring-match .ring-main"));

  /** Lists what is wrong with the rows. @param {{row: number, text: string}[]} problems */
  function tell(problems) {
    const place = find("#ring-problems");
    place.hidden = problems.length === 0;
    place.querySelector("ol")?.replaceChildren(...problems.map(({ row, text }) => make("li", {}, text,
      ...(row > 0 && radio(source) === "csv" ? [" ", make("button", { type: "button", onclick: () => line(row) }, word("ring-screen.to-row", { row }))] : []))));
    if (radio(source) === "tap") taps.mark(problems.map(({ row }) => row));
    if (problems.length) { find("#ring-answer").hidden = true; find("#ring-older").hidden = true; place.focus(); }
  }

  /** Marks one row of the text. @param {number} row */
  function line(row) {
    const lines = area.value.split("\n");
    const start = lines.slice(0, row - 1).join("\n").length + (row > 1 ? 1 : 0);
    area.focus();
    area.setSelectionRange(start, start + (lines[row - 1]?.length ?? 0));
    area.scrollTop = (row - 3) * parseFloat(getComputedStyle(area).lineHeight);
  }

  /** @param {Answer} answer @param {boolean} fresh */
  function render(answer, fresh) {
    find("#ring-answer").hidden = false;
    older();
    say(find("#ring-trip"), answer.trip);
    find("#ring-says").replaceChildren(...answer.says.map((text) => make("p", {}, text)));
    for (const [id, lines] of /** @type {[string, string[]][]} */ ([["apart", answer.apart], ["odd", answer.odd]])) {
      find(`#ring-${id}`).hidden = lines.length === 0;
      find(`#ring-${id} ul`).replaceChildren(...lines.map((text) => make("li", {}, text)));
    }
    find("#ring-unknowns tbody").replaceChildren(...answer.unknowns.map(([name, ...figures]) => make("tr", {},
      make("th", { scope: "row" }, capital(name)), ...figures.map((text) => make("td", {}, text)))));
    /** @type {HTMLElement} */ (find("#ring-unknowns").closest(".scroll")).hidden = answer.unknowns.length === 0;
    edges(answer);
    field("try").hidden = !answer.try;

    // The lamps in step, and a line over the traces.
    find("#ring-fitted").hidden = answer.fitted === null;
    const lamp = { riseS: answer.rise_s, fallS: answer.fall_s };
    for (const panel of [seen, fitted]) panel.lay(answer.floors);
    const cursor = put(find("#ring-traces"), answer.traces)?.cursor();
    move = (time) => {
      cursor?.(time);
      seen.show(lamp, answer.seen, time);
      fitted.show(lamp, answer.fitted ?? [], time);
    };
    play.load(answer.clock);
    if (fresh) find("#ring-answer-title").focus();
  }

  /** Every edge with what is left of it, as a figure and as a bar. @param {Answer} answer */
  function edges(answer) {
    const most = Math.max(100, ...answer.edges.map((edge) => Math.abs(edge.off_ms ?? 0)));
    find("#ring-edges tbody").replaceChildren(...answer.edges.map((edge) => {
      const bar = make("span", { class: `rest ${(edge.off_ms ?? 0) < 0 ? "early" : "late"}` });
      bar.style.setProperty("--rest", String(Math.abs(edge.off_ms ?? 0) / most));
      return make("tr", { class: edge.used || edge.off_ms === null ? "" : "odd" }, make("th", { scope: "row" }, String(edge.row)), make("td", {}, edge.lamp), make("td", {}, edge.state),
        make("td", {}, edge.seen), make("td", {}, edge.fitted), make("td", {}, edge.off), make("td", { class: edge.off_ms === null ? "hint" : "rest-cell" }, ...(edge.off_ms === null ? [word("ring-screen.not-fitted")] : [bar])));
    }));
    /** @type {HTMLElement} */ (find("#ring-edges").closest(".scroll")).hidden = answer.edges.length === 0;
  }

  // --- what the reader does -----------------------------------------------------

  source.addEventListener("change", turn);
  area.addEventListener("input", older);
  for (const id of ["speed", "speed-error"]) field(id).addEventListener("input", older);
  field("fit").addEventListener("click", fit);
  field("fit-cancel").addEventListener("click", () => { refuse(() => errand.cancel()); field("fit").focus(); });
  field("try").addEventListener("click", () => refuse(use.tried));
  field("taps-csv").addEventListener("click", () => save("observed.csv", taps.csv(), "text/csv"));
  field("taps-edit").addEventListener("click", () => { take(taps.csv()); area.focus(); });
  field("csv-open").addEventListener("click", () => field("csv-file").click());
  field("csv-file").addEventListener("change", async () => {
    const file = field("csv-file").files?.[0];
    field("csv-file").value = "";
    if (file) take(await file.text());
  });
  field("csv-example").addEventListener("click", () => refuse(() => {
    take(example(go("ride", { text: use.text(), from: floors[0], to: floors[floors.length - 1], lamp: "usual" })));
  }));
  back.addEventListener("click", () => { take(before); area.focus(); });
  for (const button of find(".ring-match").querySelectorAll("[data-answer]")) {
    const which = /** @type {HTMLElement} */ (button).dataset.answer ?? "";
    button.addEventListener("click", () => refuse(() => {
      if (!asked) return;
      const written = go("answer", { ...asked, which, timeS: play.time });
      if (which === "text") save("match.txt", written, "text/plain");
      else if (which === "json") save("match.json", written, "application/json");
      else savePicture(`match-${which}.svg`, written);
    }));
  }

  /** Takes up the text of a file; what it replaces can be brought back. @param {string} text */
  function take(text) {
    if (area.value.trim()) before = area.value;
    area.value = text.replaceAll("\r\n", "\n").replace(/^\uFEFF/, "");
    back.hidden = !before || before === area.value;
    radio(source, "csv");
    tell([]);
    turn();
  }

  /** What was noted before the page was left. */
  function resume() {
    const had = recall(kept);
    if (!had) return;
    area.value = String(had.csv ?? "");
    radio(source, had.source === "csv" ? "csv" : "tap");
    field("speed").value = String(had.speed ?? "");
    field("speed-error").value = String(had.error ?? "");
  }
  resume();

  return {
    /** Another building is on the stage. @param {Form} form */
    fill(form) {
      play.pause();
      errand.end();
      asked = null;
      busy.hidden = true;
      for (const id of ["answer", "problems"]) find(`#ring-${id}`).hidden = true;
      say(find("#ring-fit-said"), "");
      say(find("#ring-observe"), form.observe);
      say(find("#ring-match-caution"), form.caution);
      say(find("#ring-match-of"), word("ring-screen.match-of", { building: form.building }));
      for (const id of ["speed", "speed-error"]) field(id).max = String(form.fast_m_s);
      floors = form.floors.map((floor) => floor.name);
      taps.lay(floors);
      turn();
    },
    /** Draws anew, where there is something to draw. */
    show() { if (asked) refuse(() => watch(look({ do: "look" }), false)); },
    pause: play.pause,
    take,
  };
}

/**
 * What a patient hand would have noted of a ride: each edge, and no scatter.
 * @param {import("./types.js").Ride} ride
 */
function example(ride) {
  const lead = 2;
  /** @type {{at: number, row: string}[]} */
  const rows = [{ at: 0, row: `,${ride.from},depart` }, { at: ride.arrive_s, row: `,${ride.to},arrive` }];
  ride.lamps.forEach((changes, floor) => changes.forEach((at, i) => rows.push({ at, row: `,${ride.floors[floor]},${i % 2 ? "off" : "on"}` })));
  rows.sort((a, b) => a.at - b.at);
  return ["time_s,lamp,state", ...rows.map(({ at, row }) => `${number3(at + lead)}${row}`), ""].join("\n");
}

const number3 = (/** @type {number} */ value) => value.toFixed(3);
