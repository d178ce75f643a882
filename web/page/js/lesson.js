// The lesson panel: it shows what the tutor says and hands back what the
// learner does. It decides nothing; which run may move is the tutor's word.
import { make, the } from "./dom.js";
import { controls } from "./lesson-task.js";
import { lights } from "./lesson-light.js";
import { course, note, titled } from "./progress.js";
import { prose } from "./prose.js";
import { StageError } from "./stage.js";
import { date, word } from "./words.js";

/** @typedef {import("./stage.js").Stage} Stage */
/** @typedef {import("./lesson-types.js").Lesson} Lesson */
/** @typedef {import("./lesson-task.js").Controls} Controls */

/**
 * @param {(...deeds: [string, string?][]) => void} act does one thing after another
 * @param {() => void} leave
 * @param {Stage} stage
 */
export function lessonPanel(act, leave, stage) {
  const panel = the("lesson");
  let shown = "";
  /** @type {Controls | null} */
  let task = null;

  /** Shows a part in the picture; one that is not in it is let be. @param {string} part */
  function light(part) {
    try { stage.ask("choose", part); } catch (error) { if (!(error instanceof StageError)) throw error; }
  }

  /** @param {Lesson | null} lesson */
  function show(lesson) {
    panel.hidden = lesson === null;
    panel.dataset.state = lesson?.state ?? "";
    the("free").hidden = lesson !== null;
    if (!lesson) { shown = ""; task = null; return; }
    // A choice made here is already on the screen; drawing again would take
    // the focus from its control.
    const key = JSON.stringify([lesson.id, lesson.item, lesson.state, lesson.segment]);
    if (key !== shown) {
      const moved = shown !== "" || the("stage").dataset.ready === "1"; // not on the page's first opening
      shown = key;
      task = null;
      if (lesson.state === "explained" || lesson.state === "done") note(stage);
      panel.replaceChildren(...draw(lesson));
      panel.scrollTop = 0;
      if (moved && lesson.state !== "running") the("lesson-title").focus({ preventScroll: true });
    }
    task?.take(lesson.state === "observe" ? lesson.seen : lesson.chosen);
    enable(lesson);
  }

  /** @param {Lesson} lesson */
  function draw(lesson) {
    const parts = [
      make("p", { class: "lesson-count" }, lesson.review
        ? word("page.lesson-count-review", { title: lesson.title, item: lesson.review, items: lesson.reviews })
        : word("page.lesson-count", { title: lesson.title, item: lesson.item, items: lesson.items })),
      make("h2", { id: "lesson-title", tabindex: "-1", lang: lesson.state === "observe" ? undefined : lesson.language }, lesson.state === "observe" ? word("page.lesson-observe") : lesson.itemTitle),
      ...body(lesson),
    ];
    if (lesson.caution?.length) parts.push(make("div", { class: "notice" }, ...prose(lesson.caution, lesson.language)));
    parts.push(make("div", { class: "lesson-buttons" },
      make("button", { type: "button", onclick: leave }, word("page.lesson-leave")),
      make("a", { class: "button", href: "#screen=lessons" }, word("page.lesson-all"))));
    return parts;
  }

  /** @param {Lesson} lesson @returns {HTMLElement[]} */
  function body(lesson) {
    const asks = lesson.task !== null;
    switch (lesson.state) {
      case "lead-in":
        return [...aims(lesson), ...prose(lesson.lead, lesson.language), button("primary", "page.lesson-begin", ["run"]), ...terms(lesson)];
      case "asked":
        task = controls(lesson, lesson.chosen, (answer) => act(["choose", answer]), light);
        return [...prose(lesson.lead, lesson.language), ...prose(lesson.question, lesson.language), task.element, sure(lesson),
          button("primary", "page.lesson-commit", ["commit"], ["continue"]),
          make("p", { class: "hint", id: "commit-hint" }), skip()];
      case "committed":
      case "running":
      case "paused":
        return [...prose(lesson.question, lesson.language), ...(asks ? [pair(lesson)] : []), ...notes(lesson),
          make("p", { class: "hint" }, lesson.state === "running" ? word("page.lesson-watch") : word("page.lesson-paused", { segment: lesson.segment + 1, segments: lesson.segments })),
          button("primary", lesson.state === "committed" ? "page.lesson-start" : "page.lesson-continue", ["continue"])];
      case "observe":
        task = controls(lesson, lesson.seen, (answer) => act(["see", answer]), light);
        return [...notes(lesson), ...prose(lesson.question, lesson.language), task.element,
          make("div", { class: "lesson-buttons" }, make("button", { type: "button", class: "primary", "data-do": "observe", onclick: () => act(["observe"]) }, word("page.lesson-observe-commit"))),
          pair(lesson)];
    }
    return [...(asks && lesson.committed ? [pair(lesson)] : []),
      ...(lesson.verdict ? [make("p", { class: "verdict" }, lesson.verdict.text)] : []),
      make("div", { class: "explanation" }, ...prose(lesson.explanation, lesson.language)),
      ...lights(lesson.chain, light), ...others(lesson), ...ending(lesson)];
  }

  /** What comes after an item. @param {Lesson} lesson */
  function ending(lesson) {
    if (lesson.state !== "done") {
      const last = lesson.item === lesson.items + lesson.reviews;
      const id = last ? "page.lesson-finish" : lesson.item === lesson.items ? "page.lesson-review" : "page.lesson-next";
      return [button("primary", id, ["next"]), button("", "page.lesson-again", ["again"])];
    }
    const all = course(stage).flatMap(({ lessons }) => lessons);
    const here = all.findIndex(({ id }) => id === lesson.id);
    const next = all[here + 1];
    return [
      make("p", {}, word(all[here]?.next ? "page.lesson-done-until" : "page.lesson-done", { day: all[here]?.next ? date(all[here].next) : "" })),
      ...(next ? [make("p", {}, make("a", { class: "button primary", href: `#lesson=${next.id}&item=1` }, word("page.lesson-go-on", { title: titled(next) })))] : []),
    ];
  }

  /** @param {Lesson} lesson */
  function aims(lesson) {
    if (!lesson.aims.length) return [];
    return [make("p", { class: "hint" }, word("page.lesson-aims")), make("ul", { class: "aims", lang: lesson.language }, ...lesson.aims.map((aim) => make("li", {}, aim)))];
  }

  /** The words this lesson teaches. @param {Lesson} lesson */
  function terms(lesson) {
    if (lesson.item > 1 || !lesson.terms.length) return [];
    return [make("details", { class: "terms" },
      make("summary", {}, word("page.lesson-terms")),
      make("dl", { lang: lesson.language }, ...lesson.terms.flatMap(({ word: name, means }) => [make("dt", {}, name), make("dd", {}, means)])),
      make("p", {}, make("a", { href: "glossary.html", target: "_blank" }, word("page.lesson-glossary"))))];
  }

  /** How sure the learner is; it may be left open. @param {Lesson} lesson */
  function sure(lesson) {
    return make("fieldset", { class: "segments sure" }, make("legend", {}, word("page.lesson-sure")),
      ...["page.lesson-sure-1", "page.lesson-sure-2", "page.lesson-sure-3"].map((id, i) => make("label", {},
        make("input", { type: "radio", name: `sure-${lesson.item}`, value: String(i + 1), checked: lesson.sure === i + 1, onchange: () => act(["sure", String(i + 1)]) }),
        make("span", {}, word(id)))));
  }

  /** Passes the question over. */
  function skip() {
    return make("div", { class: "lesson-buttons" }, make("button", { type: "button", class: "quiet", "data-do": "next", onclick: () => act(["next"]) }, word("page.lesson-skip")));
  }

  /**
   * The prediction, and beside it what was seen and what the machine did.
   * @param {Lesson} lesson
   */
  function pair(lesson) {
    const row = (/** @type {string} */ id, /** @type {string} */ said, text = "") =>
      make("div", {}, make("dt", {}, word(id)), make("dd", {}, said), ...(text ? [make("dd", { class: "hint" }, text)] : []));
    const rows = [row("page.lesson-yours", lesson.said)];
    if (lesson.observed) rows.push(row("page.lesson-saw", lesson.observed.said, lesson.observed.text));
    if (lesson.outcome) rows.push(row("page.lesson-outcome", lesson.outcome.text));
    return make("dl", { class: "pair" }, ...rows);
  }

  /** @param {Lesson} lesson */
  function notes(lesson) {
    return lesson.notes?.length ? [make("div", { class: "explanation" }, ...prose(lesson.notes, lesson.language))] : [];
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
        ...prose(option.because, lesson.language))))];
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
      observe: lesson.canObserve, again: lesson.canRepeat, next: lesson.canNext,
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
