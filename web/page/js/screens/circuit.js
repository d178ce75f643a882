// The circuit, line by line, at the moment the machine is looked at; and the
// tools that ask it why, measure it, try a change on a copy, prove it, and
// take it away.
import { make, radio, say, the } from "../dom.js";
import { save, savePicture } from "../save.js";
import { ask } from "../screens.js";
import { StageError } from "../stage.js";
import { number, word } from "../words.js";
import { Meter } from "./circuit/meter.js";
import { Proof } from "./circuit/proof.js";
import { Sheet } from "./circuit/sheet.js";
import { Trial } from "./circuit/trial.js";
import { Why } from "./circuit/why.js";

/** @typedef {import("../stage.js").Stage} Stage */
/** @typedef {import("./circuit/types.js").Facts} Facts */

/**
 * @param {HTMLElement} root
 * @param {Stage} stage
 * @returns {import("../screens.js").Screen}
 */
export function screen(root, stage) {
  const go = (/** @type {string} */ action, /** @type {object} */ args = {}) => ask(stage, "circuit", action, args);
  let shown = false;
  let due = 0;
  /** @type {Facts} */
  let facts;
  /** @type {Sheet} */ let sheet;
  /** @type {Why} */ let why;
  /** @type {Meter} */ let meter;
  /** @type {Trial} */ let trial;
  /** @type {Proof} */ let proof;

  /** Does something the program may refuse. @param {() => void} deed */
  function refuse(deed) {
    try { deed(); say(the("circuit-note"), ""); } catch (error) {
      if (!(error instanceof StageError)) throw error;
      say(the("circuit-note"), error.message);
    }
  }

  const tool = () => radio(the("circuit-tool"));

  /** The drawing with what the open tool points out. */
  function draw() {
    refuse(() => sheet.draw({
      floor: /** @type {HTMLSelectElement} */ (the("circuit-floor")).value,
      target: tool() === "why" ? why.target : tool() === "trial" ? trial.target : null,
      probes: tool() === "meter" ? meter.probes : [-1, -1],
      joints: tool() === "meter",
      lit: tool() === "why" ? why.lit : 0,
    }));
  }

  /** Everything as the machine stands now. */
  function refresh() {
    due = 0;
    if (!shown || !stage.inner) return;
    const clock = stage.ask("clock");
    if (!facts || facts.key !== ask(stage, "building", "opened").text) lay(go("facts"));
    say(the("circuit-clock"), word("page.value-seconds", { value: number(clock.time_s, 2) }));
    for (const id of ["circuit-step", "circuit-press"]) /** @type {HTMLButtonElement} */ (the(id)).disabled = !clock.canCall;
    why.show();
    meter.show();
    draw();
  }

  /** Choices that follow from the building. @param {Facts} now */
  function lay(now) {
    facts = now;
    const floor = /** @type {HTMLSelectElement} */ (the("circuit-floor"));
    const chosen = floor.value;
    the("circuit-scheme").replaceChildren(...facts.schemes.map(({ id, name }) => make("option", { value: id, selected: id === facts.scheme }, name)));
    const scheme = facts.schemes.find(({ id }) => id === facts.scheme);
    say(the("circuit-limits"), scheme?.limits ?? "");
    the("circuit-limits").classList.toggle("never", facts.scheme === "direct");
    floor.replaceChildren(make("option", { value: "" }, word("circuit.lines-all")),
      ...facts.floors.toReversed().map((name) => make("option", { value: name }, word("circuit.lines-floor", { floor: name }))));
    if (facts.floors.includes(chosen)) floor.value = chosen;
    the("circuit-call").replaceChildren(...facts.calls.toReversed().map(({ id, name }) => make("option", { value: id }, name)));
    sheet.facts = facts;
    why.lay(facts);
    meter.lay(facts);
    trial.lay(facts);
    proof.show();
  }

  const later = () => { due ||= requestAnimationFrame(refresh); };

  /** Everything that needs the screen to be in the page. */
  function start() {
    sheet = new Sheet((question) => go("sheet", question));
    why = new Why((target) => go("why", target), draw, (leaves) => sheet.bring(leaves));
    meter = new Meter((probes) => go("measure", { probes }), draw, (node) => sheet.bring([node], "Node"));
    trial = new Trial((question) => go("try", question), draw);
    proof = new Proof((step) => go("prove", step), () => { location.hash = "#"; });
    sheet.picked = (spot) => {
      if (tool() === "meter") { if (spot.Node >= 0) meter.set(spot.Node); return; }
      if (spot.Leaf < 0) return;
      if (tool() === "trial") trial.choose(spot.Leaf);
      else { tools("why"); why.ask({ part: "", leaf: spot.Leaf }); }
    };
    sheet.wants = () => (tool() === "meter" ? "node" : "leaf");
    the("circuit-tool").addEventListener("change", () => { tools(tool()); draw(); });
    the("circuit-scheme").addEventListener("change", (event) => {
      const name = /** @type {HTMLSelectElement} */ (event.target).value;
      let said = "";
      refuse(() => { said = go("scheme", { name }); });
      if (said) say(the("circuit-note"), said);
      later();
    });
    the("circuit-floor").addEventListener("change", draw);
    the("circuit-step").addEventListener("click", () => refuse(() => stage.ask("step")));
    the("circuit-press").addEventListener("click", () => refuse(() => {
      const [kind, floor] = /** @type {HTMLSelectElement} */ (the("circuit-call")).value.split(/\.(.*)/s);
      const way = kind.replace(/^call-?/, "");
      stage.ask("call", way ? `${floor}:${way}` : floor);
    }));
    for (const button of root.querySelectorAll("[data-file]")) {
      button.addEventListener("click", () => refuse(() => {
        const kind = /** @type {HTMLElement} */ (button).dataset.file ?? "";
        if (kind === "diagram") savePicture("circuit.svg", go("diagram"));
        else save(kind === "json" ? "circuit.json" : "circuit.cir", go("netlist", { format: kind }), "text/plain");
      }));
    }
    stage.addEventListener("changed", () => { if (shown) later(); });
    new MutationObserver(() => { if (shown) later(); }).observe(document.documentElement, { attributeFilter: ["data-theme"] });
    new ResizeObserver(() => { if (shown) later(); }).observe(the("circuit-sheet"));
  }

  /** Shows one tool. @param {string} name */
  function tools(name) {
    radio(the("circuit-tool"), name);
    for (const section of root.querySelectorAll(".tool")) /** @type {HTMLElement} */ (section).hidden = /** @type {HTMLElement} */ (section).dataset.tool !== name;
    if (name === "proof") proof.show();
  }

  return {
    show() {
      shown = true;
      if (!sheet) start();
      refresh();
    },
    hide() { shown = false; },
  };
}
