// The column with the question. It shows no verdict, and the machine's answer
// only when the lecturer asks for it.
import { make, say, the } from "../dom.js";
import { prose } from "../prose.js";
import { word } from "../words.js";

/** @typedef {import("../lesson-types.js").Lesson} Lesson */

/** @param {import("./hands.js").Hands} hands */
export function side(hands) {
  let shown = "";

  /**
   * @param {Lesson} lesson
   * @param {boolean} answer
   */
  function show(lesson, answer) {
    say(the("lecture-count"), word("lecture.count", { title: lesson.title, item: lesson.item, items: lesson.items }));
    say(the("lecture-title"), lesson.itemTitle);
    const key = JSON.stringify([lesson.id, lesson.item, lesson.state, lesson.segment, answer]);
    if (key !== shown) {
      shown = key;
      the("lecture-text").replaceChildren(...text(lesson, answer));
      the("lecture-side").scrollTop = 0;
    }
    the("lecture-hands").replaceChildren(...hands.draw());
  }

  /**
   * @param {Lesson} lesson
   * @param {boolean} answer
   */
  function text(lesson, answer) {
    const over = lesson.state === "explained" || lesson.state === "done";
    const worked = lesson.kind === "worked";
    if (lesson.state === "lead-in") return prose(lesson.lead);
    if (worked) return [...prose(lesson.question), ...prose(lesson.notes), ...(over ? prose(lesson.explanation) : [])];
    if (lesson.state === "done") return [make("p", {}, word("lecture.done"))];
    if (lesson.state === "asked" || lesson.state === "committed") return [...prose(lesson.question), ...offered(lesson, false)];
    const told = over && answer ? [
      ...(lesson.outcome ? [make("p", {}, word("lecture.right")), make("p", { class: "lecture-outcome" }, lesson.outcome.text)] : []),
      ...offered(lesson, true),
      ...lesson.options.filter((option) => option.right).flatMap((option) => prose(option.because)),
      ...(lesson.options.length === 0 ? prose(lesson.explanation) : []),
    ] : [make("p", {}, word(over ? "lecture.hidden" : "lecture.seen")), ...offered(lesson, false)];
    return [...(answer ? [] : prose(lesson.notes)), ...told];
  }

  /**
   * The lettered answers.
   * @param {Lesson} lesson
   * @param {boolean} marked whether they are marked right or not
   */
  function offered(lesson, marked) {
    const list = lesson.options?.length ? lesson.options : lesson.task?.parts ?? [];
    if (list.length === 0) return [];
    const right = (/** @type {{id: string, right?: boolean}} */ option) => option.right ?? option.id === lesson.outcome?.id;
    return [make("ol", { class: "lecture-options" }, ...list.map((option, i) =>
      make("li", { "data-right": marked ? (right(option) ? "yes" : "no") : false },
        make("b", {}, String.fromCharCode(65 + i)), make("span", {}, option.text))))];
  }

  return { show };
}
