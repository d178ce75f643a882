// The ring bench: lay out the ring of the building on the stage, match it to a
// lift that was observed, and watch the panel in its car.
import { ask } from "../screens.js";
import { radio, say } from "../dom.js";
import { StageError } from "../stage.js";
import { layoutView } from "./ring/layout.js";
import { matchView } from "./ring/match.js";
import { panelView } from "./ring/panel.js";

/** @typedef {import("../stage.js").Stage} Stage */
/** @typedef {import("./ring/types.js").Form} Form */

/**
 * @param {HTMLElement} root
 * @param {Stage} stage
 * @returns {import("../screens.js").Screen}
 */
export function screen(root, stage) {
  const find = (/** @type {string} */ selector) => /** @type {HTMLElement} */ (root.querySelector(selector));
  const go = (/** @type {string} */ action, /** @type {object} */ args = {}) => ask(stage, "ring", action, args);
  const tabs = find("#ring-view");
  const layout = layoutView(find, go, refuse, fill);
  const match = matchView(find, go, refuse, { text: () => layout.text, tried: () => { turn("layout"); layout.lay({ do: "fit" }); } });
  const panel = panelView(find, go, refuse, () => layout.text);
  /** @type {Form | undefined} */
  let form;
  let shown = false, view = "layout", waiting = 0, laid = 0;

  /** What each view does when it is shown anew: size, theme or building have changed.
   * @type {Record<string, () => void>} */
  const views = { layout: () => layout.lay(), match: match.show, panel: panel.show };

  /** Does something the program may refuse; a refusal is said. @param {() => void} deed */
  function refuse(deed) {
    const notice = find("#ring-refusal");
    try {
      deed();
      notice.hidden = true;
    } catch (error) {
      if (!(error instanceof StageError)) throw error;
      say(notice, error.message);
      notice.hidden = false;
    }
  }

  /** Takes up the building on the stage, if it is another one. */
  function fill() {
    const next = /** @type {Form} */ (go("form"));
    if (form && next.text === form.text) return false;
    // What has just been put into the building is on the bench already.
    const same = form && next.text === layout.text;
    form = next;
    if (same) layout.adopt(form);
    else layout.fill(form);
    match.fill(form);
    panel.fill(form);
    return true;
  }

  /** Turns to a view. @param {string} name */
  function turn(name) {
    pause();
    view = name;
    radio(tabs, name);
    for (const part of root.querySelectorAll("[data-view]")) {
      const at = /** @type {HTMLElement} */ (part);
      at.hidden = at.dataset.view !== name;
    }
    const address = `#screen=ring${name === "layout" ? "" : `&part=${name}`}`;
    if (location.hash !== address) history.replaceState(null, "", address);
    measure();
  }

  function pause() { match.pause(); panel.pause(); }

  function measure() {
    clearTimeout(waiting);
    if (!shown || !stage.inner) return;
    laid = root.clientWidth;
    views[view]();
  }

  function soon() {
    clearTimeout(waiting);
    waiting = setTimeout(measure, 120);
  }

  tabs.addEventListener("change", () => turn(radio(tabs)));
  new MutationObserver(() => measure()).observe(document.documentElement, { attributeFilter: ["data-theme"] });
  new ResizeObserver(() => { if (shown && laid && Math.abs(root.clientWidth - laid) > 8) soon(); }).observe(root);
  // A file dropped while lamps are matched is an observation, unless it is a building.
  document.addEventListener("building-file", (event) => {
    const text = /** @type {CustomEvent<string>} */ (event).detail;
    if (!shown || view !== "match" || /^\s*floors\s*:/m.test(text)) return;
    event.preventDefault();
    match.take(text);
  });
  stage.addEventListener("changed", () => { if (shown && stage.inner && fill()) soon(); });

  return {
    show() {
      shown = true;
      fill();
      const part = new URLSearchParams(location.hash.slice(1)).get("part") ?? "layout";
      turn(part in views ? part : "layout");
    },
    hide() {
      shown = false;
      pause();
      clearTimeout(waiting);
    },
  };
}
