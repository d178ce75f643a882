// What stands beside the picture: the running sentence, the question with its
// answers, what happened and why. It is drawn anew only when it is another.
import { make, say } from "../dom.js";
import { prose } from "../prose.js";
import { word } from "../words.js";

/** @typedef {import("../lesson-types.js").Lesson} Lesson */
/** @typedef {import("../lesson-types.js").Paragraph} Paragraph */
/** @typedef {{id: string, title: string}} Scene */

/**
 * @typedef {object} Deeds
 * @property {() => void} begin
 * @property {(answer: string) => void} commit
 * @property {(scene: string) => void} open
 * @property {() => void} choose
 * @property {() => void} again
 * @property {() => void} finish
 */

/** A lesson's text; nothing in it leads anywhere from here. @param {Paragraph[]} paragraphs */
const text = (paragraphs) => prose(paragraphs.map(({ kind, runs }) => ({ kind, runs: runs.map(({ href, ...run }) => run) })));

/** @param {Paragraph[]} paragraphs */
export const plain = (paragraphs) => paragraphs.map(({ runs }) => runs.map((run) => run.text).join("")).join(" ");

/** The sentence of a scene that asks nothing, as far as it has run. @param {Lesson} lesson */
export function sentence(lesson) {
  if (lesson.state === "lead-in") return lesson.lead;
  if (lesson.state === "explained" && lesson.explanation.length) return [...lesson.notes.slice(-1), ...lesson.explanation];
  return lesson.notes.length ? lesson.notes.slice(-1) : lesson.question;
}

/**
 * @param {HTMLElement} root
 * @param {Deeds} deeds
 */
export function panel(root, deeds) {
  let shown = "";

  /**
   * Puts a screen on, unless it is there.
   * @param {string} name
   * @param {string} key tells it from another of its name
   * @param {() => HTMLElement[]} parts
   */
  function put(name, key, parts) {
    const now = `${name} ${key}`;
    if (now === shown) return;
    const focused = root.contains(document.activeElement);
    shown = now;
    root.dataset.screen = name;
    root.replaceChildren(...parts());
    root.scrollTop = 0;
    fit();
    // Who goes by keys is not left behind on a button that is gone.
    if (focused) /** @type {HTMLElement | null} */ (root.querySelector("h1"))?.focus({ preventScroll: true });
  }

  /** Lets nothing be out of sight, if that can be had. */
  function fit() {
    root.classList.remove("tight");
    root.classList.toggle("tight", root.scrollHeight > root.clientHeight);
  }
  addEventListener("resize", fit);

  const heading = (/** @type {(Node | string)[]} */ ...content) => make("h1", { tabindex: "-1" }, ...content);
  const button = (/** @type {string} */ label, /** @type {() => void} */ deed, first = false) =>
    make("button", { type: "button", class: first ? "primary" : false, onclick: deed }, label);

  /** Where a visitor stands: to watch, to predict, to see why. @param {number} at */
  function steps(at) {
    return make("ol", { class: "exhibit-steps" }, ...["watch", "predict", "see"].map((name, i) =>
      make("li", { "aria-current": i === at ? "step" : false }, word(`exhibit.step-${name}`))));
  }

  /** @param {Lesson} lesson */
  function attract(lesson) {
    put("attract", "", () => [
      heading(word("exhibit.title")),
      make("div", { class: "exhibit-sentence", role: "status" }),
      button(word("exhibit.begin"), deeds.begin, true),
    ]);
    const now = sentence(lesson);
    const place = /** @type {HTMLElement} */ (root.querySelector(".exhibit-sentence"));
    if (place.textContent !== now.map((p) => plain([p])).join("")) place.replaceChildren(...text(now));
  }

  /** @param {Lesson} lesson @param {boolean} more whether there are other scenes */
  function scene(lesson, more) {
    const { state, id } = lesson;
    switch (state) {
      case "lead-in":
        put("lead", id, () => [steps(0), heading(lesson.title), make("div", { class: "exhibit-sentence", role: "status" }, ...text(lesson.lead))]);
        return;
      case "asked":
        put("asked", id, () => [steps(1), heading(...text(lesson.question).flatMap((p) => [...p.childNodes])),
          make("div", { class: "exhibit-choices", role: "group", "aria-label": word("exhibit.answers") },
            ...lesson.options.map((option) => button(option.text, () => deeds.commit(option.id))))]);
        return;
      case "explained":
      case "done":
        put("explained", id, () => explained(lesson, more));
        return;
    }
    put("running", id, () => [steps(2), heading(word("exhibit.watch")),
      make("div", { class: "exhibit-asked" }, ...text(lesson.question)), ...said(lesson), make("div", { class: "exhibit-sentence", role: "status" })]);
    const note = lesson.notes.slice(-1);
    say(/** @type {HTMLElement} */ (root.querySelector(".exhibit-sentence")), plain(note));
  }

  /** The answer that was given. @param {Lesson} lesson */
  const said = (lesson) => [make("dl", { class: "exhibit-pair" }, make("div", {}, make("dt", {}, word("exhibit.you-said")), make("dd", {}, lesson.said)))];

  /** @param {Lesson} lesson @param {boolean} more */
  function explained(lesson, more) {
    const right = lesson.verdict?.right ?? false;
    const pair = said(lesson);
    if (!right && lesson.outcome) pair[0].append(make("div", { class: "exhibit-outcome" }, make("dt", {}, word("exhibit.happened")), make("dd", {}, lesson.outcome.text)));
    const chosen = lesson.options.find(({ id }) => id === lesson.chosen);
    const because = chosen?.because ?? [];
    // What stands last in the explanation belongs to the scene, whatever was answered.
    const summary = lesson.explanation.slice(-1);
    return [steps(2),
      heading(word(right ? "exhibit.right" : "exhibit.otherwise")), ...pair,
      make("div", { class: "exhibit-because" }, ...text(because), ...text(summary).map((p) => { p.className = "exhibit-summary"; return p; })),
      make("div", { class: "exhibit-buttons" },
        ...(more ? [button(word("exhibit.another"), deeds.choose, true)] : []),
        button(word("exhibit.again"), deeds.again), button(word("exhibit.finish"), deeds.finish))];
  }

  /** @param {Scene[]} scenes */
  function choose(scenes) {
    put("choose", scenes.map(({ id }) => id).join(), () => [
      heading(word("exhibit.choose")),
      make("div", { class: "exhibit-choices" }, ...scenes.map(({ id, title }) => button(title, () => deeds.open(id)))),
    ]);
  }

  return { attract, scene, choose };
}
