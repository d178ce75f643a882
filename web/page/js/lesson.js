// The lesson panel: it shows what the tutor says and hands back what the
// learner does. It decides nothing; which run may move is the tutor's word.
import { make, the } from "./dom.js";
import { word } from "./words.js";

/** @typedef {import("./types.js").Lesson} Lesson */

/** @typedef {(action: string, arg?: string) => void} Do */

/**
 * @param {Do} act
 * @param {() => void} leave
 */
export function lessonPanel(act, leave) {
  const panel = the("lesson");
  let shown = "";

  /** @param {Lesson | null} lesson */
  function show(lesson) {
    panel.hidden = lesson === null;
    the("free").hidden = lesson !== null;
    if (!lesson) { shown = ""; return; }
    // A choice made here is already on the screen; drawing again would take
    // the focus from the radio button.
    const key = JSON.stringify({ ...lesson, chosen: "", canRun: 0, canStep: 0 });
    if (key === shown) { enable(lesson); return; }
    const before = shown;
    shown = key;
    const held = panel.contains(document.activeElement);
    panel.replaceChildren(...draw(lesson));
    enable(lesson);
    if (held || before !== "") /** @type {HTMLElement | null} */ (panel.querySelector("[data-first]"))?.focus();
  }

  /** @param {Lesson} lesson */
  function draw(lesson) {
    const parts = [
      make("p", { class: "lesson-count" }, word("page.lesson-count", { title: lesson.title, item: lesson.item, items: lesson.items })),
      make("h2", { id: "lesson-title", tabindex: "-1", "data-first": lesson.state === "asked" || lesson.state === "explained" || lesson.state === "observe" },
        lesson.state === "lead-in" ? lesson.title : lesson.state === "observe" ? word("page.lesson-observe") : lesson.question || lesson.title),
    ];
    switch (lesson.state) {
      case "lead-in":
        parts.push(make("p", {}, lesson.lead), buttons(["run", "page.lesson-begin", "primary"]));
        break;
      case "asked":
        parts.push(make("p", {}, lesson.lead), choices(lesson, "choose", lesson.chosen));
        parts.push(buttons(["commit", "page.lesson-commit", "primary"]), make("p", { class: "hint", id: "commit-hint" }));
        break;
      case "committed":
      case "running":
      case "paused":
        parts.push(answer(lesson));
        parts.push(make("p", { class: "hint" }, lesson.state === "running" ? word("page.lesson-watch") : word("page.lesson-paused", { segment: lesson.segment, segments: lesson.segments })));
        parts.push(buttons(["continue", lesson.state === "committed" ? "page.lesson-start" : "page.lesson-continue", "primary"]));
        break;
      case "observe":
        parts.push(make("p", {}, lesson.question), choices(lesson, "observe-choose", ""), buttons(["observe", "page.lesson-observe-commit", "primary"]), answer(lesson));
        break;
      case "explained":
        parts.push(outcome(lesson));
        if (lesson.verdict) parts.push(make("p", { class: "verdict" }, lesson.verdict));
        parts.push(make("div", { class: "explanation" }, ...(lesson.explanation ?? []).map((text) => make("p", {}, text))));
        parts.push(buttons(["next", lesson.item < lesson.items ? "page.lesson-next" : "page.lesson-finish", "primary"], ["again", "page.lesson-again", ""]));
        break;
      case "done":
        parts.push(make("p", {}, word("page.lesson-done")), buttons(["again", "page.lesson-again", ""]));
        break;
    }
    parts.push(make("div", { class: "lesson-buttons" }, make("button", { type: "button", onclick: leave }, word("page.lesson-leave"))));
    return parts;
  }

  /**
   * The options as radio buttons, none chosen beforehand.
   * @param {Lesson} lesson
   * @param {string} action
   * @param {string} chosen
   */
  function choices(lesson, action, chosen) {
    const name = `${action}-${lesson.id}-${lesson.item}`;
    return make("fieldset", { class: "options" },
      make("legend", { class: "unseen" }, word("page.lesson-options")),
      ...lesson.options.map(({ id, text }) => make("label", { class: "option" },
        make("input", { type: "radio", name, value: id, checked: id === chosen, onchange: () => (action === "choose" ? act("choose", id) : enable({ ...lesson, chosen: id })) }),
        make("span", {}, text))));
  }

  /** @param {Lesson} lesson */
  function answer(lesson) {
    return make("dl", { class: "pair" }, row("page.lesson-yours", textOf(lesson, lesson.chosen)));
  }

  /** @param {Lesson} lesson */
  function outcome(lesson) {
    return make("dl", { class: "pair" },
      row("page.lesson-yours", textOf(lesson, lesson.chosen)),
      ...(lesson.observed ? [row("page.lesson-saw", textOf(lesson, lesson.observed))] : []),
      row("page.lesson-outcome", lesson.outcome?.text ?? ""));
  }

  /**
   * @param {string} id
   * @param {string} text
   */
  function row(id, text) {
    return make("div", {}, make("dt", {}, word(id)), make("dd", {}, text));
  }

  /** @param {...[string, string, string]} list action, words, class */
  function buttons(...list) {
    return make("div", { class: "lesson-buttons" }, ...list.map(([action, id, kind]) =>
      make("button", { type: "button", class: kind || false, "data-do": action, "aria-describedby": action === "commit" ? "commit-hint" : false, onclick: () => press(action) }, word(id))));
  }

  /** @param {string} action */
  function press(action) {
    if (action !== "observe") { act(action); return; }
    const picked = panel.querySelector("input:checked");
    if (picked) act("observe", /** @type {HTMLInputElement} */ (picked).value);
  }

  /** @param {Lesson} lesson */
  function enable(lesson) {
    for (const button of panel.querySelectorAll("button[data-do]")) {
      const action = /** @type {HTMLButtonElement} */ (button).dataset.do;
      const off = action === "commit" ? !lesson.chosen
        : action === "observe" ? !panel.querySelector("input:checked")
        : action === "continue" ? lesson.state === "running"
        : false;
      /** @type {HTMLButtonElement} */ (button).disabled = off;
    }
    const hint = document.getElementById("commit-hint");
    if (hint) hint.textContent = word(lesson.chosen ? "page.lesson-commit-hint" : "page.lesson-choose-hint");
  }

  return { show };
}

/**
 * @param {Lesson} lesson
 * @param {string} id
 */
function textOf(lesson, id) {
  return lesson.options.find((option) => option.id === id)?.text ?? "";
}
