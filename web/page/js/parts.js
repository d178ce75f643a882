// One part of the machine, chosen in the picture or in the list: its name, its
// state and one plain sentence. The list is in groups and can be narrowed.
import { make, say, the } from "./dom.js";
import { capital, word } from "./words.js";
import { term } from "./glossary.js";

/** @typedef {import("./stage.js").Stage} Stage */
/** @typedef {import("./types.js").Part} Part */

/** @param {Stage} stage */
export function parts(stage) {
  /** @type {HTMLSelectElement} */
  const select = the("part");
  const filter = /** @type {HTMLInputElement} */ (the("part-filter"));
  const text = the("part-text");
  const pointed = the("pointed");
  /** @type {Part[]} */
  let list = [];
  let shown = "";
  let now = ""; // what is chosen on the stage

  select.addEventListener("change", () => {
    stage.ask("choose", select.value);
    stage.ask("bring", select.value);
  });
  filter.addEventListener("input", fill);
  filter.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" && event.key !== "ArrowDown") return;
    event.preventDefault();
    const first = list.find(matches());
    if (!first) return;
    select.value = first.id;
    select.dispatchEvent(new Event("change"));
    select.focus();
  });

  /** Whether a part's name or group holds every word of what is looked for. */
  function matches() {
    const wanted = filter.value.toLocaleLowerCase().split(/\s+/);
    return (/** @type {Part} */ { name, group }) => {
      const text = `${name} ${group}`.toLocaleLowerCase();
      return wanted.every((w) => text.includes(w));
    };
  }

  /** The list, narrowed to what is looked for; what is chosen stays in it. */
  function fill() {
    const wanted = matches();
    /** @type {Map<string, HTMLElement[]>} */
    const groups = new Map();
    for (const part of list) {
      const { id, name, group } = part;
      if (id !== now && !wanted(part)) continue;
      if (!groups.has(group)) groups.set(group, []);
      groups.get(group)?.push(make("option", { value: id }, capital(name)));
    }
    const none = groups.size === 0 ? word("page.part-nothing") : word("page.part-none");
    select.replaceChildren(make("option", { value: "" }, none), ...[...groups].map(([label, options]) => make("optgroup", { label }, ...options)));
    point(now);
  }

  /** Marks the chosen part in the list, where it can be seen. @param {string} id */
  function point(id) {
    select.value = id;
    const option = select.selectedOptions[0];
    if (!option) return;
    const [mark, box] = [option.getBoundingClientRect(), select.getBoundingClientRect()];
    if (mark.top < box.top || mark.bottom > box.bottom) select.scrollTop += mark.top - box.top - box.height / 2;
  }

  return {
    /** Fills the list for what the stage shows. */
    lay() {
      list = /** @type {Part[]} */ (stage.ask("parts"));
      select.disabled = filter.disabled = false;
      fill();
      shown = "";
    },
    /** @param {string} id */
    show(id) {
      now = id;
      if (select.value !== id) point(id);
      if (!id) {
        if (shown !== "") text.replaceChildren(make("p", { class: "hint" }, word("page.part-hint")));
        say(pointed, word("page.pointed-none"));
        shown = "";
        return;
      }
      const part = /** @type {import("./types.js").PartText} */ (stage.ask("describe", id));
      say(pointed, capital(part.state));
      if (shown !== id) {
        if (select.value !== id) fill(); // it was narrowed away
        text.replaceChildren(make("p", { class: "part-state" }, capital(part.state)), make("p", {}, part.text));
        const found = term(part.name);
        if (found) text.append(make("p", {}, make("a", { href: found.href }, word("page.part-term", { term: found.word }))));
        shown = id;
        return;
      }
      const [state, sentence] = text.children;
      say(state, capital(part.state));
      say(sentence, part.text);
    },
  };
}
