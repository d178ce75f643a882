// Opening a building: from the list, from a file, by dropping a file. A file
// that cannot be read leaves the machine as it was and lists every fault.
import { make, the } from "./dom.js";
import { word } from "./words.js";

/** @typedef {import("./types.js").FileError} FileError */

/** A file larger than this is not a building file. */
const largest = 1 << 20;

/**
 * @param {object} use
 * @param {(id: string) => void} use.shipped opens a building that ships
 * @param {(yaml: string) => void} use.load opens the text of a file, or throws a StageError
 */
export function building({ shipped, load }) {
  /** @type {HTMLSelectElement} */
  const select = the("building");
  /** @type {HTMLInputElement} */
  const input = the("building-file");
  const open = the("building-open");
  const drop = the("drop");
  let opened = select.value;

  select.addEventListener("change", () => {
    close();
    if (select.value !== opened) shipped(select.value);
  });
  open.addEventListener("click", () => input.click());
  input.addEventListener("change", () => {
    const file = input.files?.[0];
    input.value = "";
    if (file) read(file);
  });
  the("building-errors").addEventListener("keydown", (event) => {
    if (event.key === "Escape") { close(); open.focus(); }
  });

  // Dropping: the whole page is the target, said in words while a file hovers.
  let depth = 0;
  addEventListener("dragenter", (event) => {
    if (!event.dataTransfer?.types.includes("Files")) return;
    depth += 1;
    drop.hidden = false;
  });
  addEventListener("dragleave", () => {
    depth = Math.max(0, depth - 1);
    drop.hidden = depth === 0;
  });
  addEventListener("dragover", (event) => event.preventDefault());
  addEventListener("drop", (event) => {
    event.preventDefault();
    depth = 0;
    drop.hidden = true;
    const file = event.dataTransfer?.files[0];
    if (file) read(file);
  });

  /** @param {File} file */
  async function read(file) {
    if (file.size > largest) {
      fail(file.name, [{ line: 0, column: 0, text: word("page.file-large") }]);
      return;
    }
    try {
      const text = await file.text();
      // A screen that is open may want the file for itself.
      if (!document.dispatchEvent(new CustomEvent("building-file", { detail: text, cancelable: true }))) return;
      load(text);
      close();
    } catch (error) {
      const errors = /** @type {any} */ (error).errors;
      fail(file.name, errors?.length ? errors : [{ line: 0, column: 0, text: String(/** @type {Error} */ (error).message) }]);
    }
  }

  /**
   * @param {string} name
   * @param {FileError[]} errors
   */
  function fail(name, errors) {
    const box = the("building-errors");
    box.setAttribute("aria-labelledby", "building-errors-title");
    box.replaceChildren(
      make("h2", { id: "building-errors-title" }, word("page.file-bad", { file: name, count: errors.length })),
      make("p", {}, word("page.file-kept")),
      make("ol", {}, ...errors.map(({ line, column, text }) => make("li", {},
        make("span", { class: "where" }, line > 0 ? word("page.file-place", { line, column }) : word("page.file-whole")),
        make("span", {}, text)))),
      make("button", { type: "button", id: "building-errors-close", onclick: () => { close(); open.focus(); } }, word("page.close")),
    );
    box.hidden = false;
    box.focus();
  }

  function close() { the("building-errors").hidden = true; }

  return {
    /** Lets the reader choose, once the stage can follow. */
    enable() {
      select.disabled = false;
      /** @type {HTMLButtonElement} */ (open).disabled = false;
    },
    /**
     * Shows the building on the stage as chosen; one that came from a file
     * gets an entry of its own.
     * @param {string} id
     * @param {string} name
     */
    mark(id, name) {
      const own = select.querySelector('option[value=""]');
      if (id === "" && own) own.textContent = name;
      else if (id === "") select.append(make("option", { value: "" }, name));
      else own?.remove();
      opened = id;
      select.value = id;
    },
    fail,
  };
}
