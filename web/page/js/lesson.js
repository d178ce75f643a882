// The lesson panel: it shows what the tutor says and hands back what the
// learner does. It decides nothing; which run may move is the tutor's word.
import { make, the } from "./dom.js";
import { prose } from "./prose.js";
import { word } from "./words.js";

/** @typedef {import("./types.js").Lesson} Lesson */

/**
 * @param {(...deeds: [string, string?][]) => void} act does one thing after another
 * @param {() => void} leave
 */
export function lessonPanel(act, leave) {
  const panel = the("lesson");
  let shown = "";
  let seen = ""; // what the learner has marked as seen, before handing it in

  /** @param {Lesson | null} lesson */
  function show(lesson) {
    panel.hidden = lesson === null;
    the("free").hidden = lesson !== null;
    if (!lesson) { shown = ""; return; }
    // A choice made here is already on the screen; drawing again would take
    // the focus from the radio button.
    const key = JSON.stringify([lesson.id, lesson.item, lesson.state, lesson.segment]);
    if (key !== shown) {
      const moved = shown !== "";
      shown = key;
      seen = "";
      panel.replaceChildren(...draw(lesson));
      panel.scrollTop = 0;
      if (moved && lesson.state !== "running") the("lesson-title").focus({ preventScroll: true });
    }
    enable(lesson);
  }

  /** @param {Lesson} lesson */
  function draw(lesson) {
    /** @type {HTMLElement[]} */
    const parts = [
      make("p", { class: "lesson-count" }, word("page.lesson-count", { title: lesson.title, item: lesson.item, items: lesson.items })),
      make("h2", { id: "lesson-title", tabindex: "-1" }, lesson.state === "observe" ? word("page.lesson-observe") : lesson.itemTitle),
    ];
    const asks = lesson.options?.length > 0;
    switch (lesson.state) {
      case "lead-in":
        parts.push(...prose(lesson.lead), button("primary", "page.lesson-begin", ["run"]));
        break;
      case "asked":
        parts.push(...prose(lesson.question),
          choices(lesson, lesson.chosen, (id) => act(["choose", id])),
          button("primary", "page.lesson-commit", ["commit"], ["continue"]),
          make("p", { class: "hint", id: "commit-hint" }));
        break;
      case "committed":
      case "running":
      case "paused":
        parts.push(...prose(lesson.question), ...(asks ? [pair(lesson)] : []), ...notes(lesson),
          make("p", { class: "hint" }, lesson.state === "running" ? word("page.lesson-watch") : word("page.lesson-paused", { segment: lesson.segment + 1, segments: lesson.segments })),
          button("primary", lesson.state === "committed" ? "page.lesson-start" : "page.lesson-continue", ["continue"]));
        break;
      case "observe":
        parts.push(...notes(lesson), ...prose(lesson.question),
          choices(lesson, "", (id) => { seen = id; enable(lesson); }),
          make("div", { class: "lesson-buttons" }, make("button", { type: "button", class: "primary", "data-do": "observe", onclick: () => act(["observe", seen]) }, word("page.lesson-observe-commit"))),
          pair(lesson));
        break;
      case "explained":
      case "done":
        if (asks && lesson.committed) parts.push(pair(lesson));
        if (lesson.verdict) parts.push(make("p", { class: "verdict" }, lesson.verdict.text));
        parts.push(make("div", { class: "explanation" }, ...prose(lesson.explanation)), ...others(lesson));
        if (lesson.state === "done") parts.push(make("p", {}, word("page.lesson-done")));
        else {
          parts.push(button("primary", lesson.item < lesson.items ? "page.lesson-next" : "page.lesson-finish", ["next"]),
            button("", "page.lesson-again", ["again"]));
        }
        break;
    }
    if (lesson.caution?.length) parts.push(make("div", { class: "notice" }, ...prose(lesson.caution)));
    parts.push(make("div", { class: "lesson-buttons" }, make("button", { type: "button", onclick: leave }, word("page.lesson-leave"))));
    return parts;
  }

  /**
   * The options as radio buttons, none chosen beforehand.
   * @param {Lesson} lesson
   * @param {string} chosen
   * @param {(id: string) => void} choose
   */
  function choices(lesson, chosen, choose) {
    const name = `answer-${lesson.item}-${lesson.state}`;
    return make("fieldset", { class: "options" },
      make("legend", { class: "unseen" }, word("page.lesson-options")),
      ...lesson.options.map(({ id, text }) => make("label", { class: "option" },
        make("input", { type: "radio", name, value: id, checked: id === chosen, onchange: () => choose(id) }),
        make("span", {}, text))));
  }

  /**
   * The prediction, and beside it what was seen and what the machine did.
   * @param {Lesson} lesson
   */
  function pair(lesson) {
    const text = (/** @type {string} */ id) => lesson.options.find((option) => option.id === id)?.text ?? "";
    const row = (/** @type {string} */ id, /** @type {string} */ said, note = "") =>
      make("div", {}, make("dt", {}, word(id)), make("dd", {}, said), ...(note ? [make("dd", { class: "hint" }, note)] : []));
    const rows = [row("page.lesson-yours", text(lesson.chosen))];
    if (lesson.observed) rows.push(row("page.lesson-saw", text(lesson.observed.id), lesson.observed.text));
    if (lesson.outcome) rows.push(row("page.lesson-outcome", lesson.outcome.text));
    return make("dl", { class: "pair" }, ...rows);
  }

  /** @param {Lesson} lesson */
  function notes(lesson) {
    return lesson.notes?.length ? [make("div", { class: "explanation" }, ...prose(lesson.notes))] : [];
  }

  /**
   * Why each answer is right or not, for whoever wants the rest as well.
   * @param {Lesson} lesson
   */
  function others(lesson) {
    if (!lesson.options?.some((option) => option.because?.length)) return [];
    return [make("details", { class: "others" },
      make("summary", {}, word("page.lesson-others")),
      ...lesson.options.map((option) => make("div", {},
        make("p", { class: "verdict" }, word(option.right ? "page.lesson-right" : "page.lesson-wrong", { answer: option.text })),
        ...prose(option.because))))];
  }

  /**
   * @param {string} kind
   * @param {string} id
   * @param {...[string, string?]} deeds
   */
  function button(kind, id, ...deeds) {
    return make("div", { class: "lesson-buttons" }, make("button", {
      type: "button", class: kind || false, "data-do": deeds[0][0],
      "aria-describedby": deeds[0][0] === "commit" ? "commit-hint" : false,
      onclick: () => act(...deeds),
    }, word(id)));
  }

  /** @param {Lesson} lesson */
  function enable(lesson) {
    /** @type {Record<string, boolean>} */
    const can = {
      run: lesson.canRun, commit: lesson.canCommit, continue: lesson.canContinue,
      observe: lesson.canObserve && seen !== "", again: lesson.canRepeat, next: lesson.canNext,
    };
    for (const element of panel.querySelectorAll("button[data-do]")) {
      const control = /** @type {HTMLButtonElement} */ (element);
      control.disabled = !can[control.dataset.do ?? ""];
    }
    const hint = document.getElementById("commit-hint");
    if (hint) hint.textContent = word(lesson.canCommit ? "page.lesson-commit-hint" : "page.lesson-choose-hint");
  }

  return { show };
}
