// The screen that prints worksheets. The program sets the pages; here they are
// shown as they will be on paper and handed to the printer.
import { make, say, the } from "../dom.js";
import { titled } from "../progress.js";
import { ask } from "../screens.js";
import { StageError } from "../stage.js";
import { word } from "../words.js";

/**
 * @param {HTMLElement} root
 * @param {import("../stage.js").Stage} stage
 * @returns {import("../screens.js").Screen}
 */
export function screen(root, stage) {
  /** @param {string} id @returns {HTMLInputElement} */
  const input = (id) => /** @type {HTMLInputElement} */ (root.querySelector(`#worksheet-${id}`));
  let laid = "";

  function lay() {
    const order = {
      lesson: input("lesson").value, copies: Number(input("copies").value) || 0, seed: Number(input("seed").value) || 0,
      answers: input("answers").checked, address: location.origin + location.pathname,
    };
    const key = JSON.stringify(order);
    if (key === laid || !order.lesson) return;
    laid = key;
    const pages = the("worksheet-pages");
    try {
      // The program escapes every text of a lesson, so this is its own markup.
      const parsed = new DOMParser().parseFromString(ask(stage, "worksheet", "pages", order), "text/html");
      pages.replaceChildren(...[...parsed.body.children].map((child) => document.adoptNode(child)));
      const count = pages.querySelectorAll(".sheet").length;
      say(the("worksheet-note"), word("worksheet.laid", { count }));
      input("print").disabled = false;
    } catch (error) {
      if (!(error instanceof StageError)) throw error;
      pages.replaceChildren();
      input("print").disabled = true;
      say(the("worksheet-note"), error.message);
    }
  }

  root.querySelector("form")?.addEventListener("submit", (event) => event.preventDefault());
  root.querySelector("form")?.addEventListener("change", lay);
  input("print").addEventListener("click", () => { lay(); print(); });

  return {
    show() {
      const list = /** @type {{id: string, title: string, language?: string}[]} */ (stage.ask("lessons"));
      const chosen = new URLSearchParams(location.hash.slice(1)).get("lesson") || input("lesson").value;
      input("lesson").replaceChildren(...list.map((lesson) => make("option", { value: lesson.id }, titled(lesson))));
      if (list.some(({ id }) => id === chosen)) input("lesson").value = chosen;
      laid = "";
      lay();
    },
    hide() { the("worksheet-pages").replaceChildren(); },
  };
}
