// The lessons beside the machine: what is due for review, what comes next, and
// the way to all of them.
import { make, the } from "./dom.js";
import { course, titled } from "./progress.js";
import { word } from "./words.js";

/** @typedef {import("./stage.js").Stage} Stage */

/** As many reviews are offered at once. */
const most = 3;

/** @param {Stage} stage */
export function listLessons(stage) {
  const all = course(stage).flatMap(({ lessons }) => lessons);
  const due = all.filter((lesson) => lesson.due);
  const next = all.find((lesson) => !lesson.finished);
  const entry = (/** @type {string} */ href, /** @type {string} */ text) => make("li", {}, make("a", { class: "button", href }, text));
  the("lessons").hidden = all.length === 0;
  the("lesson-list").replaceChildren(
    ...due.slice(0, most).map((lesson) => entry(`#lesson=${lesson.id}&item=${lesson.items + 1}`, word("page.lesson-due", { title: titled(lesson) }))),
    ...(next ? [entry(`#lesson=${next.id}&item=1`, word(next.answered ? "page.lesson-resume" : "page.lesson-start-with", { title: titled(next) }))] : []),
    entry("#screen=lessons", word("page.lesson-all")));
}
