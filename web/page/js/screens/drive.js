// The screen of the drive: a trip measured, two handwheels compared, every load
// and every handwheel, starts and stops link by link, and what to change.
import { ask } from "../screens.js";
import { make, radio, say } from "../dom.js";
import { word } from "../words.js";
import { save, savePicture } from "../save.js";
import { StageError } from "../stage.js";
import { causesView } from "./drive/causes.js";
import { dial } from "./drive/dial.js";
import { pairView } from "./drive/pair.js";
import { player } from "./drive/player.js";
import { put, room } from "./drive/picture.js";
import { judged, plain } from "./drive/tables.js";
import { Work } from "./drive/work.js";

/** @typedef {import("../stage.js").Stage} Stage */
/** @typedef {import("./drive/types.js").Question} Question */
/** @typedef {import("./drive/types.js").Form} Form */
/** @typedef {import("./drive/types.js").Pair} Pair */
/** @typedef {import("./drive/types.js").Trip} Trip */
/** @typedef {import("./drive/types.js").Sequence} Sequence */
/** @typedef {import("./drive/types.js").Cures} Cures */

/**
 * @param {HTMLElement} root
 * @param {Stage} stage
 * @returns {import("../screens.js").Screen}
 */
export function screen(root, stage) {
  const find = (/** @type {string} */ selector) => /** @type {HTMLElement} */ (root.querySelector(selector));
  const from = /** @type {HTMLSelectElement} */ (find("#drive-from")), to = /** @type {HTMLSelectElement} */ (find("#drive-to"));
  const which = /** @type {HTMLSelectElement} */ (find("#drive-which"));
  const views = find("#drive-view"), fit = find("#drive-fit"), busy = find("#drive-busy");
  const bar = /** @type {HTMLProgressElement} */ (find("#drive-progress"));
  const work = new Work();
  /** @type {Record<string, import("./drive/dial.js").Dial>} */
  const dials = {};
  for (const place of root.querySelectorAll("[data-dial]")) {
    const at = /** @type {HTMLElement} */ (place);
    dials[at.dataset.dial ?? ""] = dial(at, soon);
  }
  const pair = pairView(find), causes = causesView(find);
  /** @type {(time: number) => void} */
  let move = () => {};
  const trip = player(find('[data-player="trip"]'), (time) => move(time));
  /** @type {Form} */
  let form;
  let shown = false, view = "wheels", waiting = 0, laid = 0;
  /** Two wheels are given what each needs; one machine is what its file says. */
  const fits = { pair: "fit", one: "file" };
  const fitOf = () => (view === "wheels" ? "pair" : "one");

  /** @param {string} action @param {object} [more] */
  const query = (action, more = {}) => ask(stage, "drive", action, { ...question(), ...more });

  /** @returns {Question} */
  function question() {
    return { from: from.value, to: to.value, loadKG: dials.loadKG.value, handwheel: dials.handwheel.value,
      light: dials.light.value, heavy: dials.heavy.value, fit: fits[fitOf()] === "fit" };
  }

  // --- the fields -------------------------------------------------------------

  /** Fills the fields for the building on the stage. */
  function fill() {
    form = /** @type {Form} */ (ask(stage, "drive", "form"));
    const floors = () => form.floors.toReversed().map((floor) => make("option", { value: floor.name }, floor.name));
    from.replaceChildren(...floors());
    to.replaceChildren(...floors());
    from.value = form.from;
    to.value = form.to;
    dials.loadKG.bound(form.loadKG, 0, form.mostKG);
    for (const key of /** @type {const} */ (["handwheel", "light", "heavy"])) dials[key].bound(form[key], 0, form.mostHandwheel);
    say(find("#drive-caution"), form.caution);
    say(find("#drive-of"), word("drive-screen.of", { building: form.building }));
  }

  from.addEventListener("change", () => { if (from.value === to.value) to.selectedIndex = from.selectedIndex ? 0 : 1; soon(); });
  to.addEventListener("change", () => { if (to.value === from.value) from.selectedIndex = to.selectedIndex ? 0 : 1; soon(); });
  fit.addEventListener("change", () => { fits[fitOf()] = radio(fit); soon(); });
  find("#drive-swap").addEventListener("click", () => { [from.value, to.value] = [to.value, from.value]; soon(); });
  find("#drive-reset").addEventListener("click", () => { fill(); soon(); });
  views.addEventListener("change", () => turn(radio(views)));
  which.addEventListener("change", () => measure());
  find("#drive-cancel").addEventListener("click", () => (work.busy ? cancel() : measure()));

  /** Measures when the reader has stopped moving things for a moment. */
  function soon() {
    work.stop();
    clearTimeout(waiting);
    waiting = setTimeout(measure, 120);
  }

  // --- the views --------------------------------------------------------------

  /** Turns to a view. @param {string} name */
  function turn(name) {
    pause();
    view = name;
    radio(views, name);
    radio(fit, fits[fitOf()]);
    for (const part of root.querySelectorAll("[data-view]")) {
      const at = /** @type {HTMLElement} */ (part);
      at.hidden = at.dataset.view !== name;
    }
    for (const at of Object.values(dials)) at.root.hidden = !(at.root.dataset.for ?? name).split(" ").includes(name);
    const address = `#screen=drive${name === "wheels" ? "" : `&part=${name}`}`;
    if (location.hash !== address) history.replaceState(null, "", address);
    measure();
  }

  function pause() { pair.pause(); trip.pause(); causes.pause(); }

  /** Measures what the view shows; a refusal is said in its place. */
  async function measure() {
    clearTimeout(waiting);
    if (!shown || !stage.inner) return;
    busy.hidden = false;
    bar.removeAttribute("value");
    say(find("#drive-progress-text"), word("drive-screen.working"));
    find("#drive-cancel").hidden = true;
    root.setAttribute("aria-busy", "true");
    let whole = false;
    try {
      whole = await doings[view]();
      if (whole) find("#drive-refusal").hidden = true;
    } catch (error) {
      if (!(error instanceof StageError)) throw error;
      work.stop();
      whole = true;
      say(find("#drive-refusal"), error.message);
      find("#drive-refusal").hidden = false;
    }
    if (!whole) return; // something newer is being measured, or it was stopped
    busy.hidden = true;
    root.removeAttribute("aria-busy");
    laid = find(".drive-main").clientWidth;
  }

  /** What each view asks for; true when it has come to its end.
   * @type {Record<string, () => Promise<boolean>>} */
  const doings = {
    wheels: () => work.run(() => {
      const answer = /** @type {Pair} */ (query("compare", pair.size()));
      pair.show(answer);
      head(answer.trip, "");
      return true;
    }),

    trip: () => work.run(() => {
      const answer = ridden();
      find("#drive-misfits").replaceChildren(...answer.misfits.map((text) => make("p", {}, text)));
      const layer = put(find("#drive-journey"), answer.journey);
      const line = layer?.cursor(), mark = layer?.runner(answer.path, "runner one", 6);
      move = (time) => { line?.(time); mark?.(time / answer.clock.tickS); };
      trip.load(answer.clock);
      judged(find("#drive-figures"), answer.figures);
      judged(find("#drive-make"), answer.make);
      say(find("#drive-limit"), answer.limit);
      say(find("#drive-traction"), answer.traction);
      return true;
    }),

    causes: () => work.run(() => {
      const all = ridden().sequences, was = which.value || "stop";
      which.replaceChildren(...all.map(({ id, name }) => make("option", { value: id }, name)));
      which.value = all.some(({ id }) => id === was) ? was : all.at(-1)?.id ?? "";
      causes.show(/** @type {Sequence} */ (query("sequence", { which: which.value, ...causes.size() })));
      return true;
    }),

    loads: () => {
      const of = form.loads + form.wheels;
      let loads = 0, wheels = 0;
      return work.run((k) => {
        if (k === 0) { ridden(); find("#drive-cancel").hidden = false; return; }
        if (loads < form.loads) {
          const answer = query("loads", { part: loads, width: room(find("#drive-sweep")) });
          loads = answer.done;
          put(find("#drive-sweep"), answer.screen.picture);
          plain(find("#drive-loads-table"), answer.screen.table);
          say(find("#drive-loads-say"), answer.whole ? answer.screen.say : "");
        } else {
          const answer = query("wheels", { part: wheels, width: room(find("#drive-each")) });
          wheels = answer.done;
          put(find("#drive-each"), answer.screen.picture);
          plain(find("#drive-each-table"), answer.screen.table);
        }
        progress(loads + wheels, of);
        return loads + wheels >= of;
      });
    },

    change: () => work.run((k) => {
      if (k === 0) { ridden(); return; }
      const answer = /** @type {Cures} */ (query("cures"));
      say(find("#drive-change-say"), answer.say);
      find("#drive-change tbody").replaceChildren(...answer.rows.map((row) => make("tr", { "data-key": row.path },
        make("th", { scope: "row" }, row.name, " ", make("code", {}, row.path)), make("td", {}, row.is), make("td", {}, row.wants),
        make("td", { class: row.met ? "met" : "missed" }, row.met ? word("drive-screen.suits") : row.change))));
      return true;
    }),
  };

  /** The trip as it was made. @returns {Trip} */
  function ridden() {
    const answer = /** @type {Trip} */ (query("trip", { width: room(find("#drive-journey")) }));
    head(answer.trip, answer.given);
    return answer;
  }

  /** @param {string} made @param {string} given */
  function head(made, given) {
    say(find("#drive-trip"), made);
    say(find("#drive-given"), given);
  }

  /** @param {number} done @param {number} of */
  function progress(done, of) {
    bar.max = of;
    bar.value = done;
    say(find("#drive-progress-text"), word("drive-screen.progress", { done, of }));
    say(find("#drive-cancel"), word("drive-screen.cancel"));
  }

  /** Stops measuring; what has been measured stays, and can be gone on from. */
  function cancel() {
    work.stop();
    root.removeAttribute("aria-busy");
    say(find("#drive-progress-text"), word("drive-screen.cancelled", { done: bar.value, of: bar.max }));
    say(find("#drive-cancel"), word("drive-screen.go-on"));
  }

  // --- files ------------------------------------------------------------------

  /** What can be taken away from each view.
   * @type {Record<string, {pictures: () => import("./drive/picture.js").Picture[], tables: [string, string][]}>} */
  const files = {
    wheels: { pictures: () => {
      const drawn = /** @type {Pair} */ (query("compare", { ...pair.size(), paper: true }));
      return [drawn.time, drawn.light.torque, drawn.heavy.torque];
    }, tables: [["compare", "csv"]] },
    trip: { pictures: () => [query("trip", { width: room(find("#drive-journey")), paper: true }).journey], tables: [["trip", "csv"], ["figures", "csv-figures"]] },
    causes: { pictures: () => [query("sequence", { which: which.value, ...causes.size(), paper: true }).picture], tables: [] },
    loads: { pictures: () => [query("loads", { part: form.loads, width: room(find("#drive-sweep")), paper: true }).screen.picture,
      query("wheels", { part: form.wheels, width: room(find("#drive-each")), paper: true }).screen.picture], tables: [["figures", "csv-figures"]] },
  };
  for (const place of root.querySelectorAll("[data-saves]")) {
    const name = /** @type {HTMLElement} */ (place).dataset.saves ?? "";
    const { pictures, tables } = files[name];
    place.append(
      make("button", { type: "button", onclick: () => saved(async () => {
        let k = 0;
        for (const picture of pictures()) if (picture.svg) await savePicture(`drive-${name}-${(k += 1)}.svg`, picture.svg);
      }) }, word("drive-screen.svg")),
      ...tables.map(([table, button]) => make("button", { type: "button", onclick: () => saved(async () => {
        save(`drive-${table}.csv`, query("table", { which: table }), "text/csv");
      }) }, word(`drive-screen.${button}`))));
  }

  /** @param {() => Promise<void>} deed */
  async function saved(deed) {
    try { await deed(); } catch (error) {
      if (!(error instanceof StageError)) throw error;
      say(find("#drive-refusal"), error.message);
      find("#drive-refusal").hidden = false;
    }
  }

  // --- what changes around it ---------------------------------------------------

  new MutationObserver(() => measure()).observe(document.documentElement, { attributeFilter: ["data-theme"] });
  new ResizeObserver(() => {
    if (shown && laid && Math.abs(find(".drive-main").clientWidth - laid) > 8) soon();
  }).observe(find(".drive-main"));
  stage.addEventListener("changed", () => {
    // Another building may be on the stage now.
    if (!shown || !stage.inner || !ask(stage, "drive", "form").fresh) return;
    fill();
    soon();
  });

  return {
    show() {
      shown = true;
      if (!form || ask(stage, "drive", "form").fresh) fill();
      const part = new URLSearchParams(location.hash.slice(1)).get("part") ?? "wheels";
      turn(part in doings ? part : "wheels");
    },
    hide() {
      shown = false;
      pause();
      work.stop();
    },
  };
}
