// The screen of all lessons: the course by its parts, what has been done in
// it, what is due for review, and the learner's hold on what is kept.
import { make, say } from "../dom.js";
import { bring, course, erase, titled, today, written } from "../progress.js";
import { StageError } from "../stage.js";
import { date, word } from "../words.js";

/** @typedef {import("../stage.js").Stage} Stage */
/** @typedef {import("../progress.js").Learned} Learned */

/** A file larger than this is no progress. */
const largest = 1 << 20;

/**
 * @param {HTMLElement} root
 * @param {Stage} stage
 * @returns {import("../screens.js").Screen}
 */
export function screen(root, stage) {
  const find = (/** @type {string} */ id) => /** @type {HTMLElement} */ (root.querySelector(`#${id}`));
  const file = /** @type {HTMLInputElement} */ (find("progress-file"));
  const note = (/** @type {string} */ text) => say(find("progress-note"), text);

  find("progress-export").addEventListener("click", () => {
    const url = URL.createObjectURL(new Blob([written()], { type: "application/json" }));
    make("a", { href: url, download: `wheelroom-progress-${today()}.json` }).click();
    setTimeout(() => URL.revokeObjectURL(url), 1000);
    note(word("course.exported"));
  });
  find("progress-import").addEventListener("click", () => file.click());
  file.addEventListener("change", async () => {
    const chosen = file.files?.[0];
    file.value = "";
    if (!chosen) return;
    try {
      if (chosen.size > largest) throw new StageError(word("course.not-progress"));
      bring(stage, await chosen.text());
      note(word("course.imported"));
    } catch (error) {
      if (!(error instanceof StageError)) throw error;
      note(error.message);
    }
    draw();
  });
  find("progress-erase").addEventListener("click", () => ask(true));
  find("progress-keep").addEventListener("click", () => ask(false));
  find("progress-really").addEventListener("click", () => {
    erase();
    ask(false);
    draw();
    note(word("course.erased"));
  });

  /** Asks once more before what is kept is gone. @param {boolean} open */
  function ask(open) {
    find("progress-sure").hidden = !open;
    find(open ? "progress-keep" : "progress-erase").focus();
  }

  function draw() {
    const groups = course(stage);
    const due = groups.flatMap(({ lessons }) => lessons).filter((lesson) => lesson.due);
    find("lessons-due").hidden = due.length === 0;
    find("lessons-due-list").replaceChildren(...due.map((lesson) => make("li", {}, review(lesson, titled(lesson)))));
    find("lessons-groups").replaceChildren(...groups.map(({ id, lessons }) => make("section", { class: "lesson-group", "aria-labelledby": `group-${id}` },
      make("h3", { id: `group-${id}` }, word(`course.group-${id}`)),
      make("ol", { class: "lesson-cards" }, ...lessons.map(card)))));
    find("lessons-groups").querySelectorAll(".lesson-number").forEach((number, i) => say(number, `${i + 1}.`));
    const nothing = written() === "";
    for (const id of ["progress-export", "progress-erase"]) /** @type {HTMLButtonElement} */ (find(id)).disabled = nothing;
  }

  /** @param {Learned} lesson */
  function card(lesson) {
    return make("li", { class: lesson.finished ? "lesson-card finished" : "lesson-card" },
      make("span", { class: "lesson-number" }),
      make("a", { href: `#lesson=${lesson.id}&item=1` }, titled(lesson)),
      make("p", { class: "hint" }, word(`course.level-${lesson.level}`), word("course.between"), word("course.items", { count: lesson.items })),
      make("p", { class: "lesson-state" }, state(lesson)),
      ...(lesson.due ? [review(lesson, word("course.review-now"))] : []));
  }

  /** What has been done, in words. @param {Learned} lesson */
  function state(lesson) {
    const { answered, right, finished, next, due } = lesson;
    if (!answered) return word("course.not-begun");
    const said = word("course.right", { right, count: answered });
    if (!finished) return said;
    if (due) return said + word("course.between") + word("course.is-due");
    return said + word("course.between") + (next ? word("course.next", { day: date(next) }) : word("course.learned"));
  }

  /** The way to the items for review. @param {Learned} lesson @param {string} text */
  function review(lesson, text) {
    const title = titled(lesson);
    return make("a", { class: "button", href: `#lesson=${lesson.id}&item=${lesson.items + 1}` }, text,
      ...(text === title ? [] : [make("span", { class: "unseen" }, `: ${title}`)]));
  }

  return { show: draw, hide: () => note("") };
}
