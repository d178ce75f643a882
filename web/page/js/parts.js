// One part of the machine, chosen in the picture or in the list: its name, its
// state and one plain sentence.
import { make, say, the } from "./dom.js";
import { capital, word } from "./words.js";

/** @typedef {import("./stage.js").Stage} Stage */

/** @param {Stage} stage */
export function parts(stage) {
  /** @type {HTMLSelectElement} */
  const select = the("part");
  const text = the("part-text");
  let shown = "";
  select.addEventListener("change", () => stage.ask("choose", select.value));
  return {
    /** Fills the list for the building on the stage. */
    lay() {
      const list = /** @type {import("./types.js").Part[]} */ (stage.ask("parts"));
      select.replaceChildren(make("option", { value: "" }, word("page.part-none")), ...list.map(({ id, name }) => make("option", { value: id }, capital(name))));
      select.disabled = false;
      shown = "";
    },
    /** @param {string} id */
    show(id) {
      if (select.value !== id) select.value = id;
      if (!id) {
        if (shown !== "") text.replaceChildren(make("p", { class: "hint" }, word("page.part-hint")));
        shown = "";
        return;
      }
      const part = /** @type {import("./types.js").PartText} */ (stage.ask("describe", id));
      if (shown !== id) {
        text.replaceChildren(make("p", { class: "part-state" }, capital(part.state)), make("p", {}, part.text));
        shown = id;
        return;
      }
      const [state, sentence] = text.children;
      say(state, capital(part.state));
      say(sentence, part.text);
    },
  };
}
