// The screen on which a building is set up. The text of its file is the one
// thing that is edited: form and text view show it, every change makes a new
// one, and the program says of each whether it can be built. One that can is
// on the stage at once.
import { keep } from "../kept.js";
import { radio, say, the } from "../dom.js";
import { ask } from "../screens.js";
import { StageError } from "../stage.js";
import { word } from "../words.js";
import { make } from "../dom.js";
import { Form } from "./building/form.js";
import { Picture } from "./building/picture.js";
import { told } from "./building/row.js";
import { Steps } from "./building/steps.js";
import { Text } from "./building/text.js";

/** @typedef {import("../stage.js").Stage} Stage */
/** @typedef {import("./building/types.js").Sheet} Sheet */
/** @typedef {import("./building/types.js").Edit} Edit */

/** A file larger than this is not a building file. */
const largest = 1 << 20;

/**
 * @param {HTMLElement} root
 * @param {Stage} stage
 * @returns {import("../screens.js").Screen}
 */
export function screen(root, stage) {
  const go = (/** @type {string} */ action, /** @type {object} */ args = {}) => ask(stage, "building", action, args);
  const steps = new Steps();
  /** @type {Sheet} */
  let sheet;
  let onStage = ""; // text of the building on the stage
  let shown = false;
  /** @type {Form} */
  let form;
  /** @type {Text} */
  let text;
  /** @type {Picture} */
  let picture;

  const note = (/** @type {string} */ words) => say(the("editor-note"), words);

  /** Does something the program may refuse. @param {() => void} deed */
  function refuse(deed) {
    try { deed(); } catch (error) {
      if (!(error instanceof StageError)) throw error;
      note(error.message);
      if (sheet) render();
    }
  }

  /**
   * Takes a text up, on the stage too if it can be built.
   * @param {string} next
   */
  function use(next) {
    sheet = go("use", { text: next });
    if (sheet.sound) onStage = sheet.text;
    steps.keep(onStage);
    const own = go("opened");
    keep("building", own.id ? null : { text: own.text });
    render();
  }

  /** @type {import("./building/row.js").Do} */
  const act = (edit, about = "") => refuse(() => {
    const next = go("edit", { text: sheet.text, ...edit });
    if (next === sheet.text) { render(); return; }
    steps.add(next, about);
    use(next);
    note(sheet.note);
  });

  /** @param {-1 | 1} by */
  const move = (by) => {
    text.flush();
    if (by < 0 ? !steps.canUndo : !steps.canRedo) { note(word("editor.nothing-to-undo")); return; }
    refuse(() => {
      use(steps.move(by));
      note([word(by < 0 ? "editor.undone" : "editor.redone"), sheet.note].filter(Boolean).join(" "));
    });
  };

  function render() {
    form.show(sheet);
    text.show(sheet);
    const wrong = sheet.faults.filter((fault) => !fault.warning).length;
    say(the("editor-state"), wrong > 0 ? word("editor.wrong", { count: wrong })
      : sheet.faults.length > 0 ? word("editor.warned", { count: sheet.faults.length }) : word("editor.sound"));
    the("editor-state").dataset.state = wrong > 0 ? "wrong" : sheet.faults.length > 0 ? "warned" : "sound";
    the("editor-old").hidden = sheet.sound;
    const elsewhere = sheet.faults.filter((fault) => !form.has(fault));
    the("editor-elsewhere").hidden = elsewhere.length === 0;
    the("editor-elsewhere").querySelector("ol")?.replaceChildren(...elsewhere.map((fault) => make("li", {}, told(fault, act,
      make("button", { type: "button", class: "line", onclick: () => { view("text"); text.go(fault); } }, word("editor.to-line", { line: fault.line })), " "))));
    for (const [deed, can] of [["undo", steps.canUndo], ["redo", steps.canRedo]]) {
      const button = /** @type {HTMLButtonElement} */ (root.querySelector(`[data-do="${deed}"]`));
      button.disabled = !can;
    }
    picture.show();
  }

  /** @param {string} name */
  function view(name) {
    radio(the("editor-view"), name);
    text.flush();
    the("editor-form").hidden = name !== "form";
    the("editor-text").hidden = name !== "text";
    root.dataset.view = name;
  }

  /**
   * A file that was chosen or dropped: also one that is wrong is taken up, to
   * be put right here. The lift stays as it is meanwhile.
   * @param {string} next
   */
  function take(next) {
    steps.add(next);
    refuse(() => {
      use(next);
      note(sheet.note);
      if (!sheet.readable) view("text");
    });
  }

  /** @type {Record<string, () => void>} */
  const deeds = {
    undo: () => move(-1),
    redo: () => move(1),
    fresh: () => take(go("fresh")),
    open: () => the("editor-file").click(),
    save() {
      const name = `${sheet.name.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, "-").replace(/^-|-$/g, "") || "building"}.yaml`;
      const link = make("a", { href: URL.createObjectURL(new Blob([sheet.text], { type: "application/yaml" })), download: name });
      link.click();
      setTimeout(() => URL.revokeObjectURL(link.href), 1000);
      note(word("editor.saved", { file: name }));
    },
    async share() {
      const address = `${location.origin}${location.pathname}#${go("address", { text: sheet.text })}`;
      try {
        await navigator.clipboard.writeText(address);
        note(word("editor.shared"));
        the("editor-address").hidden = true;
      } catch {
        const area = /** @type {HTMLTextAreaElement} */ (the("editor-address-text"));
        the("editor-address").hidden = false;
        area.value = address;
        area.focus();
        area.select();
      }
    },
  };

  /** Everything that needs the screen to be in the page. */
  function lay() {
    form = new Form(the("editor-form"), go("form"), act);
    text = new Text(the("editor-text"), (next) => {
      if (next === sheet.text) return;
      steps.add(next, "text");
      refuse(() => { use(next); note(sheet.note); });
    }, act);
    picture = new Picture((question) => go("picture", question));
    root.addEventListener("focusin", (event) => {
      const path = /** @type {HTMLElement} */ (event.target).dataset.path ?? /** @type {HTMLElement} */ (event.target).closest("tr[data-index]")?.querySelector("input")?.dataset.path;
      if (path) picture.at(path);
      steps.part();
    });
    for (const button of root.querySelectorAll(".editor-bar [data-do]")) {
      const name = /** @type {HTMLElement} */ (button).dataset.do ?? "";
      button.addEventListener("click", () => { text.flush(); refuse(deeds[name]); });
    }
    the("editor-view").addEventListener("change", () => view(radio(the("editor-view"))));
    const file = /** @type {HTMLInputElement} */ (the("editor-file"));
    file.addEventListener("change", async () => {
      const chosen = file.files?.[0];
      file.value = "";
      if (!chosen) return;
      if (chosen.size > largest) note(word("editor.file-large"));
      else take(await chosen.text());
    });
    root.addEventListener("keydown", (event) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      const key = event.key.toLowerCase();
      if (key !== "z" && key !== "y") return;
      event.preventDefault();
      // What was typed into a field is a step too, even before its pause.
      document.activeElement?.dispatchEvent(new Event("change"));
      move(key === "y" || event.shiftKey ? 1 : -1);
    });
    // A file dropped on the page while this screen is shown is for the editor.
    document.addEventListener("building-file", (event) => {
      if (!shown) return;
      event.preventDefault();
      take(/** @type {CustomEvent<string>} */ (event).detail);
    });
    stage.addEventListener("changed", () => { if (shown && stage.inner) adopt(); });
  }

  /** Takes up a building that came on the stage by another way. */
  function adopt() {
    const own = go("opened").text;
    if (own === onStage) return;
    const had = onStage !== "";
    onStage = own;
    if (!had && steps.resume(own)) {
      use(steps.text);
      return;
    }
    steps.add(own);
    use(own);
    note(had ? word("editor.adopted", { name: sheet.name }) : "");
  }

  return {
    show() {
      shown = true;
      if (!form) lay();
      refuse(adopt);
      picture.on = true;
      picture.show();
    },
    hide() {
      text.flush();
      shown = false;
      picture.on = false;
    },
  };
}
