// The lecturer's own screen: a second window of this page, with the answer,
// the explanation and the count, and the same keys.
import { make } from "../dom.js";
import { prose } from "../prose.js";
import { word } from "../words.js";

/** @typedef {import("../lesson-types.js").Lesson} Lesson */

/**
 * @param {(action: string, args?: object) => any} go
 * @param {(name: string) => void} deed
 */
export function notes(go, deed) {
  /** @type {Window | null} */
  let window = null;
  let about = "";
  /** @type {any} */
  let told = null;
  let last = null;

  const self = {
    /** @type {(event: KeyboardEvent) => void} */
    keys: () => {},

    /** Opens the window, or finds the one there is. False where the browser will not. */
    open() {
      window = globalThis.open("", "lecture-notes", "width=760,height=820");
      if (!window) return false;
      const page = window.document;
      page.documentElement.lang = document.documentElement.lang;
      page.documentElement.dataset.theme = document.documentElement.dataset.theme;
      page.title = word("lecture.notes-title");
      page.head.replaceChildren(...["palette", "base", "lecture"].map((name) =>
        make("link", { rel: "stylesheet", href: new URL(`../../style/${name}.css`, import.meta.url).href })), page.head.querySelector("title") ?? "");
      window.addEventListener("keydown", (event) => self.keys(event));
      window.focus();
      if (last) self.show(last);
      return true;
    },

    /** @param {{open: Lesson | null, time: string, running: boolean, hands: HTMLElement}} now */
    show(now) {
      last = now;
      if (!window || window.closed) return;
      const { open } = now;
      const key = open ? `${open.id}/${open.item}` : "";
      if (key !== about) {
        about = key;
        try { told = open ? go("notes", { lesson: open.id, item: open.item }) : null; } catch { told = null; }
      }
      const button = (/** @type {string} */ name, /** @type {string} */ id) =>
        make("button", { type: "button", onclick: () => deed(name) }, word(id));
      const parts = [
        make("h1", {}, open ? open.itemTitle : word("lecture.notes-none")),
        make("p", {}, word("lecture.notes-state", { time: now.time, state: word(now.running ? "lecture.state-running" : "lecture.state-frozen") })),
        make("nav", {}, button("back", "lecture.back"), button("next", "lecture.next"), button("freeze", now.running ? "lecture.freeze" : "lecture.run"),
          button("hands", "lecture.hands"), button("reveal", "lecture.reveal"), button("again", "lecture.again"), button("answer", "lecture.answer")),
      ];
      if (open) parts.push(make("div", {}, ...prose(open.question.length ? open.question : open.lead)));
      if (told?.answer) parts.push(make("h2", {}, word("lecture.notes-answer")), make("p", { class: "answer" }, told.answer));
      if (told) parts.push(make("div", {}, ...prose(told.explanation)));
      if (now.hands.querySelector("tbody td")) parts.push(make("h2", {}, word("lecture.notes-hands")), /** @type {HTMLElement} */ (now.hands.cloneNode(true)));
      if (told?.next) parts.push(make("p", {}, word("lecture.notes-next", { item: told.next })));
      const page = make("main", { class: "lecture-notes" }, ...parts);
      const old = window.document.querySelector("main");
      if (old?.textContent === page.textContent) return;
      window.document.body.replaceChildren(page);
    },
  };
  return self;
}
