// The screen on which a lesson is written. The text of its file is the one
// thing that is edited: form and text view are two ways to it, both kept in
// step, and beside them the item is played and shown with the machine's answer.
import { make, say } from "../dom.js";
import { keep, recall } from "../kept.js";
import { prose } from "../prose.js";
import { ask } from "../screens.js";
import { StageError } from "../stage.js";
import { word } from "../words.js";
import { Text } from "./building/text.js";

/** @typedef {import("../stage.js").Stage} Stage */
/** @typedef {{path: string, line: number, column: number, text: string, warning: boolean, cures: []}} Fault */
/** @typedef {{path: string, name: string, number: number, kind: string, value: string, choices: string[] | null}} Field */
/** @typedef {{readable: boolean, sound: boolean, id: string, items: string[], item: number, fields: Field[], faults: Fault[]}} Draft */

const largest = 1 << 20; // bytes of a lesson file
const longest = 6000; // letters of an address that everything takes
const store = "writer";
const pause = 120; // milliseconds before the items are played

/** Entries that can be added: the list, and its first words. */
const entries = {
  options: () => `{text: ${JSON.stringify(word("writer.new-text"))}, stops: [], because: ${JSON.stringify(word("writer.new-text"))}}`,
  segments: () => "{until: 2 s}",
};

/**
 * @param {HTMLElement} root
 * @param {Stage} stage
 * @returns {import("../screens.js").Screen}
 */
export function screen(root, stage) {
  const find = (/** @type {string} */ id) => /** @type {any} */ (root.querySelector(`#writer-${id}`));
  const go = (/** @type {string} */ action, /** @type {object} */ args = {}) => ask(stage, "writer", action, args);
  const note = (/** @type {string} */ text) => say(find("note"), text);
  const had = recall(store);
  let text = typeof had?.text === "string" ? had.text : "";
  let item = Number(had?.item) || 0;
  /** @type {string[]} */
  let before = [];
  /** @type {Draft} */
  let draft;
  /** @type {Map<number, Fault[]>} by item */
  let proven = new Map();
  let drawn = ""; // fields that the form shows
  let timer = 0;
  let shown = false;

  const view = new Text(find("text"), (next) => use(next), () => {});

  /** Does something the program may refuse. @param {() => void} deed */
  function refuse(deed) {
    try { deed(); } catch (error) {
      if (!(error instanceof StageError)) throw error;
      note(error.message);
    }
  }

  /**
   * Takes a text up.
   * @param {string} next
   * @param {boolean} [back] whether it was there before
   */
  function use(next, back = false) {
    if (next === text && draft) return;
    if (!back && draft) before = [...before.slice(-99), text];
    text = next;
    read();
  }

  function read() {
    draft = go("read", { text, item });
    item = draft.item;
    keep(store, { text, item });
    proven = new Map();
    render();
    clearTimeout(timer);
    if (draft.sound) timer = setTimeout(() => prove([item, ...draft.items.keys()].filter((n, i, all) => all.indexOf(n) === i)), pause);
    else if (!find("preview").firstChild) find("preview").replaceChildren(make("p", {}, word("writer.no-preview")));
  }

  /** Plays the items one after another; whatever is typed meanwhile ends that. @param {number[]} queue */
  function prove(queue) {
    const n = queue.shift();
    if (n === undefined || !shown) { render(); return; }
    try {
      const proof = go("prove", { text, item: n });
      proven.set(n, proof.faults);
      if (n === item) preview(proof);
    } catch (error) {
      if (!(error instanceof StageError)) throw error;
      if (n === item) find("preview").replaceChildren(make("p", {}, word("writer.no-preview")), make("p", {}, error.message));
      proven.set(n, []);
    }
    render();
    timer = setTimeout(() => prove(queue), 0);
  }

  // --- showing -----------------------------------------------------------------

  function render() {
    const faults = [...draft.faults, ...[...proven.values()].flat()].sort((a, b) => a.line - b.line || a.column - b.column);
    const wrong = faults.filter((fault) => !fault.warning).length;
    const left = draft.sound ? draft.items.length - proven.size : 0;
    find("state").dataset.state = wrong > 0 ? "wrong" : left > 0 || faults.length > 0 ? "warned" : "sound";
    say(find("state"), wrong > 0 ? word("writer.wrong", { count: wrong }) : left > 0 ? word("writer.proving", { count: left }) : word("writer.sound"));
    view.show(/** @type {any} */ ({ text, faults }));
    form(faults);
    items();
    button("undo").disabled = before.length === 0;
    button("try").disabled = wrong > 0 || !draft.sound;
    button("add-item").disabled = !draft.readable;
    button("remove-item").disabled = draft.items.length < 2;
  }

  /** @param {string} name @returns {HTMLButtonElement} */
  const button = (name) => /** @type {any} */ (root.querySelector(`[data-do="${name}"]`));

  function items() {
    const key = JSON.stringify([draft.items, item]);
    if (find("items").dataset.key === key) return;
    find("items").dataset.key = key;
    find("items").replaceChildren(find("items").querySelector("legend"), ...draft.items.map((title, i) => make("label", { title },
      make("input", { type: "radio", name: "writer-item", value: i, checked: i === item, onchange: () => { item = i; drawn = ""; read(); } }), make("span", {}, String(i + 1)))));
  }

  /** @param {Fault[]} faults */
  function form(faults) {
    const at = (/** @type {string} */ path) => faults.filter((fault) => !fault.warning && (fault.path === path || fault.path.startsWith(`${path}[`)));
    const key = JSON.stringify(draft.fields.map(({ path, name, kind }) => [path, name, kind]));
    if (key !== drawn) {
      drawn = key;
      const parts = [];
      /** @type {HTMLElement | null} */
      let group = null;
      let list = "";
      for (const field of draft.fields) {
        const entry = field.path.match(/^(items\[\d+\]\.(\w+))\[(\d+)\]\./);
        const place = entry ? `${entry[1]}/${entry[3]}` : "";
        if (list && (!entry || entry[1] !== list.split("/")[0])) { parts.push(...adder(list.split("/")[0])); }
        if (entry && place !== list) {
          group = make("div", { class: "writer-entry" });
          parts.push(group);
        }
        if (!entry) group = null;
        list = place;
        const element = control(field);
        if (!group) parts.push(element);
        else {
          group.querySelector("button")?.remove();
          group.append(element, make("button", { type: "button", onclick: () => edit({ do: "remove", path: /** @type {RegExpMatchArray} */ (entry)[1], index: Number(/** @type {RegExpMatchArray} */ (entry)[3]) }) }, word("writer.remove")));
        }
      }
      find("form").replaceChildren(...parts);
    }
    for (const field of draft.fields) {
      const element = /** @type {any} */ (document.getElementById(`writer:${field.path}`));
      if (!element) continue;
      if (document.activeElement !== element && element.value !== field.value) element.value = field.value;
      const wrong = at(field.path);
      element.classList.toggle("wrong", wrong.length > 0);
      if (wrong.length > 0) element.setAttribute("aria-invalid", "true");
      else element.removeAttribute("aria-invalid");
      element.title = wrong.map((fault) => fault.text).join(" ");
    }
  }

  /** The button that adds an entry to a list. @param {string} path */
  function adder(path) {
    const list = /** @type {"options" | "segments"} */ (path.split(".").at(-1));
    if (!entries[list]) return [];
    return [make("button", { type: "button", class: "writer-add", onclick: () => edit({ do: "add", path, value: entries[list]() }) },
      word(list === "options" ? "writer.add-option" : "writer.add-segment"))];
  }

  /** @param {Field} field */
  function control(field) {
    const id = `writer:${field.path}`;
    const set = (/** @type {Event} */ event) => edit({ do: "set", path: field.path, kind: field.kind, value: /** @type {HTMLInputElement} */ (event.target).value });
    const element = field.kind === "choice"
      ? make("select", { id, onchange: set }, ...(field.choices ?? []).map((choice) => make("option", { value: choice }, choice || word("writer.choice-none"))))
      : make(field.kind === "long" ? "textarea" : "input", { id, autocomplete: "off", spellcheck: field.kind === "long" ? "true" : "false", onchange: set });
    /** @type {HTMLInputElement} */ (element).value = field.value;
    return make("div", { class: "writer-field" }, make("label", { for: id }, word(`writer.field-${field.name}`, { number: field.number })), element);
  }

  /** @param {any} proof */
  function preview(proof) {
    const parts = [make("h4", {}, proof.title), ...prose(proof.lead)];
    if (proof.picture) {
      const svg = new DOMParser().parseFromString(proof.picture, "image/svg+xml").documentElement;
      svg.setAttribute("role", "img");
      svg.removeAttribute("aria-hidden");
      svg.setAttribute("aria-label", word("writer.picture"));
      parts.push(/** @type {any} */ (document.adoptNode(svg)));
    }
    parts.push(...prose(proof.question));
    if (proof.options?.length) {
      parts.push(make("ol", { class: "answers" }, ...proof.options.map((/** @type {any} */ option) => make("li", { "data-right": option.right ? "1" : "0" },
        make("p", {}, option.right ? word("writer.right", { text: option.text }) : option.text), make("div", { class: "because" }, ...prose(option.because))))));
    }
    if (proof.answer) parts.push(make("p", { class: "writer-answer" }, word("writer.answer", { answer: proof.answer })));
    parts.push(...(proof.options?.length ? [] : prose(proof.explanation)));
    find("preview").replaceChildren(...parts);
  }

  // --- doing -------------------------------------------------------------------

  /** @param {object} change */
  function edit(change) {
    refuse(() => { use(go("edit", { text, ...change })); note(""); });
  }

  /** Takes up a whole lesson from elsewhere; what was there comes back with Undo. @param {string} next */
  function take(next) {
    item = 0;
    drawn = "";
    find("preview").replaceChildren();
    use(next);
  }

  /** @type {Record<string, () => void>} */
  const deeds = {
    open: () => find("file").click(),
    undo: () => { const last = before.pop(); if (last !== undefined) { drawn = ""; use(last, true); } },
    save() {
      const name = `${/^[a-z0-9][a-z0-9-]*$/.test(draft.id) ? draft.id : "lesson"}.yaml`;
      const url = URL.createObjectURL(new Blob([text], { type: "application/yaml" }));
      make("a", { href: url, download: name }).click();
      setTimeout(() => URL.revokeObjectURL(url), 1000);
      note(word("writer.saved", { file: name }));
    },
    async share() {
      const address = `${location.origin}${location.pathname}#screen=lesson-writer&lesson=${go("pack", { text })}`;
      if (address.length > longest) { note(word("writer.share-large")); return; }
      find("address-text").value = address;
      try {
        await navigator.clipboard.writeText(address);
        find("address").hidden = true;
        note(word("writer.shared"));
      } catch {
        find("address").hidden = false;
        find("address-text").select();
      }
    },
    "add-item"() {
      const title = JSON.stringify(word("writer.new-item-title")), said = JSON.stringify(word("writer.new-text"));
      edit({ do: "add", path: "items", value: `{title: ${title}, lead: {text: ${said}, until: 1 s}, question: {kind: worked, text: ${said}}, segments: [{until: 2 s}]}` });
      item = draft.items.length - 1;
      drawn = "";
      read();
    },
    "remove-item"() { drawn = ""; edit({ do: "remove", path: "items", index: item }); },
    try() {
      stage.set("screen", "writer", "use", JSON.stringify({ text }));
      keep("own-lesson", { text });
      stage.ask("lessonDo", "open", `own-${draft.id}/${item + 1}`);
      location.hash = `#lesson=own-${draft.id}&item=${item + 1}`;
    },
  };
  for (const element of root.querySelectorAll("[data-do]")) {
    element.addEventListener("click", () => { view.flush(); refuse(deeds[/** @type {HTMLElement} */ (element).dataset.do ?? ""]); });
  }
  find("from").addEventListener("change", () => refuse(() => {
    const id = find("from").value;
    find("from").value = "";
    if (id) take(id === "blank" ? go("blank") : go("text", { id }));
  }));
  find("file").addEventListener("change", async () => {
    const file = find("file").files?.[0];
    find("file").value = "";
    if (!file) return;
    if (file.size > largest) { note(word("writer.file-large")); return; }
    let next = "";
    try { next = new TextDecoder("utf-8", { fatal: true }).decode(await file.arrayBuffer()); } catch { note(word("writer.not-text")); return; }
    refuse(() => { take(next); note(word("writer.opened", { file: file.name })); });
  });

  return {
    show() {
      shown = true;
      const lessons = /** @type {{id: string, title: string}[]} */ (stage.ask("lessons")).filter(({ id }) => !id.startsWith("own-"));
      find("from").replaceChildren(make("option", { value: "" }, word("writer.from-none")), make("option", { value: "blank" }, word("writer.from-blank")),
        ...lessons.map(({ id, title }) => make("option", { value: id }, title)));
      const packed = new URLSearchParams(location.hash.slice(1)).get("lesson");
      if (packed) {
        history.replaceState(null, "", "#screen=lesson-writer");
        try { take(go("unpack", { packed })); return; } catch (error) {
          if (!(error instanceof StageError)) throw error;
          note(word("writer.damaged"));
        }
      }
      if (text) read();
      else use(go("blank"));
    },
    hide() {
      view.flush();
      shown = false;
      clearTimeout(timer);
    },
  };
}
