// The screen with results: the reader's own, and those of a class read from
// many files. Files are added up here and go nowhere.
import { make, say } from "../dom.js";
import { csv, own, read } from "../results.js";
import { number, word } from "../words.js";

/** @typedef {import("../results.js").Result} Result */

const largest = 1 << 21; // bytes of one file

/**
 * @param {HTMLElement} root
 * @returns {import("../screens.js").Screen}
 */
export function screen(root) {
  const find = (/** @type {string} */ id) => /** @type {HTMLElement} */ (root.querySelector(`#results-${id}`));
  const files = /** @type {HTMLInputElement} */ (find("files"));
  /** @type {Map<string, Result>} the class, by learner and item */
  let all = new Map();

  /** @param {Result[]} list @param {string} name */
  function save(list, name) {
    const url = URL.createObjectURL(new Blob([csv(list)], { type: "text/csv" }));
    make("a", { href: url, download: name }).click();
    setTimeout(() => URL.revokeObjectURL(url), 1000);
    return name;
  }

  find("save").addEventListener("click", () => say(find("note"), word("results.saved", { file: save(own.list, `wheelroom-${own.attempt}.csv`) })));
  find("erase").addEventListener("click", () => { own.erase(); show(); say(find("note"), word("results.erased")); });
  find("all").addEventListener("click", () => save([...all.values()], "wheelroom-class.csv"));
  find("clear").addEventListener("click", () => { all = new Map(); draw(); say(find("class-note"), ""); });
  find("open").addEventListener("click", () => files.click());
  files.addEventListener("change", async () => {
    const chosen = [...files.files ?? []];
    files.value = "";
    const refused = [];
    for (const file of chosen) {
      const list = file.size > largest ? null : read(await file.text());
      if (!list) { refused.push(file.name); continue; }
      // The same answer opened twice counts once.
      for (const result of list) all.set(JSON.stringify([result.attempt, result.lesson, result.item]), result);
    }
    draw();
    const learners = new Set([...all.values()].map(({ attempt }) => attempt)).size;
    say(find("class-note"), [word("results.read", { count: learners, answers: all.size }),
      ...(refused.length ? [word("results.refused", { files: refused.join(", ") })] : [])].join(" · "));
  });

  function show() {
    const hint = root.querySelector(".results-part .hint");
    if (hint) say(hint, word("results.own-hint", { code: own.attempt }));
    for (const id of ["save", "erase"]) /** @type {HTMLButtonElement} */ (find(id)).disabled = own.list.length === 0;
    if (own.list.length === 0) { find("own").replaceChildren(make("p", {}, word("results.none"))); return; }
    const head = ["lesson", "item", "prediction", "sure", "outcome", "right", "tries", "seconds"];
    find("own").replaceChildren(make("table", {},
      make("thead", {}, make("tr", {}, ...head.map((name) => make("th", { scope: "col" }, word(`results.${name}`))))),
      make("tbody", {}, ...own.list.map((r) => make("tr", {}, ...[r.lesson, String(r.item), r.said, word(`results.sure-${r.sure}`), r.happened,
        word(r.right ? "results.yes" : "results.no"), String(r.tries), word("page.value-seconds", { value: number(r.seconds, 0) })].map((text) => make("td", {}, text)))))));
  }

  function draw() {
    for (const id of ["clear", "all"]) /** @type {HTMLButtonElement} */ (find(id)).disabled = all.size === 0;
    /** @type {Map<string, Result[]>} */
    const items = new Map();
    for (const result of all.values()) {
      const key = JSON.stringify([result.lesson, result.item]);
      items.set(key, [...items.get(key) ?? [], result]);
    }
    const order = [...items.values()].sort((a, b) => a[0].lesson.localeCompare(b[0].lesson) || a[0].item - b[0].item);
    find("class").replaceChildren(...order.map(item));
  }

  /** One item of the class: what was predicted, and what surprised. @param {Result[]} list */
  function item(list) {
    /** @type {Map<string, {said: string, right: number, count: number}>} */
    const said = new Map();
    for (const r of list) {
      const had = said.get(r.prediction) ?? { said: r.said || r.prediction, right: r.right, count: 0 };
      said.set(r.prediction, { ...had, count: had.count + 1 });
    }
    const times = list.map(({ seconds }) => seconds).sort((a, b) => a - b);
    const surprised = list.filter((r) => r.sure === 3 && !r.right).length;
    const bar = (/** @type {number} */ share) => {
      const svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
      for (const [name, value] of [["viewBox", "0 0 100 10"], ["preserveAspectRatio", "none"], ["aria-hidden", "true"]]) svg.setAttribute(name, value);
      const rect = document.createElementNS("http://www.w3.org/2000/svg", "rect");
      for (const [name, value] of [["x", 0.5], ["y", 0.5], ["width", 99 * share], ["height", 9]]) rect.setAttribute(String(name), String(value));
      svg.append(rect);
      return svg;
    };
    return make("section", { class: "results-item" },
      make("h4", {}, word("results.class-item", { lesson: list[0].lesson, item: list[0].item, title: list[0].title })),
      make("p", {}, word("results.class-share", { right: list.filter(({ right }) => right).length, count: list.length, seconds: number(times[Math.floor((times.length - 1) / 2)], 0) })),
      make("ul", {}, ...[...said.values()].sort((a, b) => b.count - a.count).map((s) => make("li", { "data-right": String(s.right) },
        make("span", { class: "results-said" }, s.right ? `✓ ${s.said}` : s.said), make("span", {}, String(s.count)), bar(s.count / list.length)))),
      ...(surprised > 0 ? [make("p", { class: "results-surprise" }, word("results.class-surprise", { count: surprised }))] : []));
  }

  return { show, hide() {} };
}
