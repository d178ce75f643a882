// The screen from which the run on the stage is taken away, at the moment that
// is looked at: sheets for the printer, pictures, traces, a link.
import { ask } from "../screens.js";
import { make, say } from "../dom.js";
import { capital, date, number, word } from "../words.js";
import { StageError } from "../stage.js";
import { drawing } from "./drive/picture.js";

/** @typedef {import("../stage.js").Stage} Stage */
/** @typedef {{building: string, scheme: string, time_s: number, endS: number, looking: boolean, state: string, link: string, stem: string}} Facts */
/** @typedef {{stops: string[][], calls: string[][], terminals: string[][], relays: string[][]}} Tables */

/** Room on a sheet of A4 within its margins, CSS pixels of 1/96 inch. */
const room = { width: 680, height: 860 };
/** And on one that lies. */
const wide = { width: 1008, height: 556 };
/** Pictures as they are saved. */
const sizes = { all: [1280, 760], shaft: [480, 820], wheel: [760, 760], circuit: [720, 900], chart: [1120, 320] };

/**
 * @param {HTMLElement} root
 * @param {Stage} stage
 * @returns {import("../screens.js").Screen}
 */
export function screen(root, stage) {
  const find = (/** @type {string} */ id) => /** @type {HTMLElement} */ (root.querySelector(`#take-${id}`));
  const field = (/** @type {string} */ id) => /** @type {HTMLInputElement} */ (find(id));
  const go = (/** @type {string} */ action, /** @type {object} */ args = {}) => ask(stage, "takeaway", action, args);
  /** @type {Facts} */
  let facts;
  /** @type {Promise<{regular: string, bold: string}> | null} */
  let type = null;

  // --- the sheets -----------------------------------------------------------------

  /** The figures of a picture that has been written. @param {string} svg */
  const figure = (svg) => make("figure", {}, drawing(svg));

  /** @param {string} picture @param {number} height @param {number} [width] */
  const picture = (picture, height, width = room.width) => figure(go("picture", { picture, theme: "paper", width, height, bare: true, id: `sheet-${picture}-` }));

  /**
   * @param {string[]} heads message identities
   * @param {string[][]} rows
   * @param {string} amounts which columns are figures, an a for each
   */
  const table = (heads, rows, amounts) => make("table", { class: "paper-table" },
    make("thead", {}, make("tr", {}, ...heads.map((id, i) => make("th", { scope: "col", class: amounts[i] === "a" ? "amount" : false }, word(id))))),
    make("tbody", {}, ...rows.map((row) => make("tr", {}, ...row.map((text, i) => make("td", { class: amounts[i] === "a" ? "amount" : false }, text))))));

  /** @type {Record<string, (tables: Tables) => Node[]>} */
  const bodies = {
    all: () => [picture("all", wide.height, wide.width)],
    shaft: () => [picture("shaft", room.height)],
    wheel: () => [picture("wheel", room.width)],
    circuit: () => [picture("circuit", room.height)],
    chart: () => /** @type {string[]} */ (go("charts", { width: room.width })).map(figure),
    stops: ({ stops, calls }) => [
      make("h4", {}, word("takeaway.stops-made")),
      table(["takeaway.floor", "takeaway.from", "takeaway.to"], stops.map(([floor, from, to]) => [floor, word("takeaway.seconds", { time: from }), to ? word("takeaway.seconds", { time: to }) : word("takeaway.still-there")]), " aa"),
      make("h4", {}, word("takeaway.calls-made")),
      calls.length
        ? table(["takeaway.floor", "takeaway.registered", "takeaway.answered"], calls.map(([floor, from, to]) => [floor, word("takeaway.seconds", { time: from }), to ? word("takeaway.seconds", { time: to }) : word("takeaway.still-waits")]), " aa")
        : make("p", {}, word("takeaway.no-calls")),
    ],
    terminals: ({ terminals }) => [table(["takeaway.terminal", "takeaway.height", "takeaway.angle", "takeaway.feeds"], terminals.map(([n, height, angle, floor]) => [n, height, angle, floor || word("takeaway.blank")]), "aaa ")],
    relays: ({ relays }) => [table(["takeaway.part", "takeaway.code", "takeaway.operates", "takeaway.lets-go", "takeaway.makes", "takeaway.breaks", "takeaway.stands", "takeaway.does"],
      relays.map(([name, ...rest]) => [capital(name), ...rest]), "  aaaa  ")],
  };

  /**
   * One sheet, or as many pages as it takes: head and foot stand on each.
   * @param {string} kind
   * @param {Node[]} body
   */
  function sheet(kind, body) {
    const link = new URL(location.href);
    link.hash = facts.link;
    return make("table", { class: kind === "all" ? "paper lies" : "paper", role: "presentation", "data-sheet": kind },
      make("thead", {}, make("tr", {}, make("td", {}, make("div", { class: "paper-head" },
        make("h3", {}, word("takeaway.sheet-title", { building: facts.building, sheet: word(`takeaway.${kind}`) })),
        make("p", {}, word("takeaway.sheet-moment", { scheme: facts.scheme, time: number(facts.time_s, 1), state: facts.state })),
        make("p", { class: "paper-date" }, date(new Date())))))),
      make("tbody", {}, make("tr", {}, make("td", {}, make("div", { class: "paper-body" }, ...body)))),
      make("tfoot", {}, make("tr", {}, make("td", {}, make("div", { class: "paper-foot" },
        make("p", {}, word("takeaway.caution")),
        make("p", { class: "paper-link" }, make("a", { href: link.href }, link.href)))))));
  }

  function lay() {
    facts = /** @type {Facts} */ (go("facts"));
    say(find("what"), word(facts.looking ? "takeaway.what-looking" : "takeaway.what", { building: facts.building, scheme: facts.scheme, time: number(facts.time_s, 1), end: number(facts.endS, 1) }));
    const link = new URL(location.href);
    link.hash = facts.link;
    field("link").value = link.href;
    const tables = /** @type {Tables} */ (go("tables"));
    const chosen = [...find("sheets").querySelectorAll("input")].filter((input) => input.checked).map((input) => input.value);
    find("pages").replaceChildren(...chosen.map((kind) => sheet(kind, bodies[kind](tables))));
    field("print").disabled = chosen.length === 0;
  }

  find("sheets").addEventListener("change", lay);
  find("print").addEventListener("click", () => { lay(); print(); });

  // --- files ----------------------------------------------------------------------

  /**
   * @param {string} name
   * @param {string} kind
   * @param {string} text
   */
  function save(name, kind, text) {
    const address = URL.createObjectURL(new Blob([text], { type: kind }));
    make("a", { href: address, download: name }).click();
    setTimeout(() => URL.revokeObjectURL(address), 60_000);
    say(find("note"), word("takeaway.saved", { file: name }));
  }

  /** The two weights, so that a saved picture looks the same anywhere. */
  function faces() {
    const face = async (/** @type {string} */ name) => {
      const bytes = new Uint8Array(await (await fetch(new URL(`../../fonts/${name}.woff2`, import.meta.url))).arrayBuffer());
      let text = "";
      for (let i = 0; i < bytes.length; i += 4096) text += String.fromCharCode(...bytes.subarray(i, i + 4096));
      return btoa(text);
    };
    type ??= Promise.all([face("regular"), face("bold")]).then(([regular, bold]) => ({ regular, bold }));
    return type;
  }

  /** Does what the program may refuse, and says the refusal. @param {() => void | Promise<void>} deed */
  async function dare(deed) {
    try { await deed(); } catch (error) {
      if (!(error instanceof StageError) && !(error instanceof TypeError)) throw error;
      say(find("note"), error.message);
    }
  }

  find("svg").addEventListener("click", () => dare(async () => {
    const picture = /** @type {keyof typeof sizes} */ (field("picture").value);
    const [width, height] = sizes[picture];
    const svg = go("picture", { picture, theme: field("theme").value, width, height, ...await faces() });
    save(`${facts.stem}-${picture}-${facts.time_s.toFixed(1)}s.svg`, "image/svg+xml", svg);
  }));
  for (const [format, kind] of [["csv", "text/csv;charset=utf-8"], ["vcd", "text/plain;charset=utf-8"]]) {
    find(format).addEventListener("click", () => dare(() => save(`${facts.stem}-${facts.time_s.toFixed(1)}s.${format}`, kind, go("trace", { format }))));
  }
  find("copy").addEventListener("click", async () => {
    field("link").select();
    let copied = false;
    try { await navigator.clipboard.writeText(field("link").value); copied = true; } catch { /* not allowed: the text is chosen, ready for the keys */ }
    say(find("note"), word(copied ? "takeaway.copied" : "takeaway.copy-yourself"));
  });

  return {
    show() { say(find("note"), ""); lay(); },
    hide() { find("pages").replaceChildren(); },
  };
}
