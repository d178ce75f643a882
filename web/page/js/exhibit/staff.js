// What the staff can see and set, behind a long press on the upper left corner
// and a code. The code is a latch and no lock: it keeps visitors out of here,
// not anybody who wants in.
import { make, say, the } from "../dom.js";
import { save } from "../save.js";
import { number, word } from "../words.js";
import { bounds, codeDigits } from "./settings.js";
import { after } from "./time.js";

/** @typedef {import("./settings.js").Settings} Settings */

const longPress = 3; // seconds
const mostWrong = 3;

/**
 * @param {object} of
 * @param {() => Settings} of.settings
 * @param {import("./counts.js").Counts} of.counts
 * @param {import("./languages.js").Language[]} of.languages
 * @param {() => {id: string, title: string}[]} of.scenes
 * @param {() => boolean} of.kept whether what is counted outlives the page
 * @param {(next: Partial<Settings>) => void} of.change
 * @param {() => void} of.resetCounts
 */
export function staff(of) {
  const root = the("exhibit-staff");
  const corner = the("exhibit-corner");

  // --- the way in ------------------------------------------------------------------

  let press = 0;
  const letGo = () => { clearTimeout(press); press = 0; };
  corner.addEventListener("pointerdown", () => { letGo(); press = after(longPress, () => { press = 0; enter(); }); });
  for (const kind of ["pointerup", "pointercancel", "pointerleave"]) corner.addEventListener(kind, letGo);
  // By keys there is no long press, and the code is asked for all the same.
  corner.addEventListener("click", (event) => { if (event.detail === 0) enter(); });

  function enter() {
    let wrong = 0;
    pad(word("exhibit.code"), (code) => {
      if (code === of.settings().code) { desk(); return ""; }
      wrong += 1;
      if (wrong === mostWrong) close();
      return word("exhibit.code-wrong");
    });
  }

  /** @param {...(Node | string)} parts */
  function put(...parts) {
    root.hidden = false;
    root.replaceChildren(...parts);
    /** @type {HTMLElement | null} */ (root.querySelector("h2"))?.focus({ preventScroll: true });
  }

  function close() {
    root.hidden = true;
    root.replaceChildren();
  }

  const heading = (/** @type {string} */ text) => make("h2", { tabindex: "-1" }, text);
  const button = (/** @type {string} */ label, /** @type {() => void} */ deed, /** @type {Record<string, unknown>} */ more = {}) =>
    make("button", { type: "button", onclick: deed, ...more }, label);

  // --- numbers -----------------------------------------------------------------------

  /**
   * A pad of digits.
   * @param {string} title
   * @param {(code: string) => string} done returns what was wrong, "" for nothing
   * @param {() => void} [leave]
   */
  function pad(title, done, leave = close) {
    let typed = "";
    const dots = make("p", { class: "exhibit-dots", role: "status" });
    const wrong = make("p", { class: "exhibit-wrong", role: "alert" });
    const show = () => {
      say(dots, "●".repeat(typed.length) + "○".repeat(codeDigits - typed.length));
      dots.setAttribute("aria-label", word("exhibit.code-digits", { count: typed.length }));
    };
    const type = (/** @type {number} */ digit) => {
      say(wrong, "");
      typed += digit;
      show();
      if (typed.length < codeDigits) return;
      const code = typed;
      typed = "";
      say(wrong, done(code));
      show();
    };
    const digits = [1, 2, 3, 4, 5, 6, 7, 8, 9].map((digit) => button(String(digit), () => type(digit)));
    put(make("div", { class: "exhibit-pad" }, heading(title), dots, wrong,
      make("div", { class: "exhibit-digits" }, ...digits,
        button(word("exhibit.close"), leave), button("0", () => type(0)),
        button("⌫", () => { typed = typed.slice(0, -1); show(); }, { "aria-label": word("exhibit.code-back") }))));
    show();
  }

  /** A new code, twice. */
  function newCode() {
    pad(word("exhibit.code-new"), (code) => {
      pad(word("exhibit.code-repeat"), (again) => {
        if (again !== code) return word("exhibit.code-differs");
        of.change({ code });
        desk();
        return "";
      }, desk);
      return "";
    }, desk);
  }

  // --- the desk ------------------------------------------------------------------------

  /** @param {string} label @param {...HTMLElement} controls */
  const row = (label, ...controls) => make("div", { class: "exhibit-row", role: "group", "aria-label": label }, make("span", {}, label), make("div", {}, ...controls));

  /** @param {string} label @param {string} chosen @param {[string, string][]} values @param {(value: string) => void} take */
  const choice = (label, chosen, values, take) => row(label, ...values.map(([value, text]) =>
    button(text, () => { take(value); desk(); }, { "aria-pressed": String(value === chosen), lang: label === word("exhibit.set-language") && value })));

  /**
   * A number with buttons to lower and raise it.
   * @param {string} label
   * @param {"inches" | "idleS" | "warningS"} name
   * @param {string} shown
   * @param {number[]} steps
   * @param {...HTMLElement} more
   */
  function amount(label, name, shown, steps, ...more) {
    const [least, most] = bounds[name];
    const value = of.settings()[name];
    const to = (/** @type {number} */ step) => Math.min(most, Math.max(least, (value || 24) + step));
    const change = (/** @type {number} */ step) => button(`${step < 0 ? "−" : "+"}${Math.abs(step)}`, () => { of.change({ [name]: to(step) }); desk(); },
      { "aria-label": word(step < 0 ? "exhibit.less" : "exhibit.more", { what: label, step: Math.abs(step) }) });
    return row(label, ...steps.toReversed().map((step) => change(-step)), make("output", {}, shown), ...steps.map(change), ...more);
  }

  function desk() {
    const settings = of.settings();
    const scroll = root.querySelector(".exhibit-desk")?.scrollTop ?? 0;
    const inches = settings.inches ? word("exhibit.inches", { inches: settings.inches }) : word("exhibit.inches-unknown");
    put(make("div", { class: "exhibit-desk" },
      make("header", {}, heading(word("exhibit.settings")), button(word("exhibit.close"), close, { class: "primary" })),
      ...(of.languages.length > 1 ? [choice(word("exhibit.set-language"), settings.language || of.languages[0].tag,
        of.languages.map(({ tag, name }) => /** @type {[string, string]} */ ([tag, name])), (language) => of.change({ language }))] : []),
      amount(word("exhibit.set-screen"), "inches", inches, [1, 10],
        ...(settings.inches ? [button(word("exhibit.inches-unknown"), () => { of.change({ inches: 0 }); desk(); })] : [])),
      make("p", { class: "exhibit-hint" }, word("exhibit.set-screen-hint")),
      amount(word("exhibit.set-idle"), "idleS", word("exhibit.seconds", { count: settings.idleS }), [bounds.idleS[2]]),
      amount(word("exhibit.set-warning"), "warningS", word("exhibit.seconds", { count: settings.warningS }), [bounds.warningS[2]]),
      choice(word("exhibit.set-theme"), settings.theme, [["paper", word("exhibit.theme-paper")], ["slate", word("exhibit.theme-slate")]], (theme) => of.change({ theme })),
      row(word("exhibit.set-scenes"), ...of.scenes().map(({ id, title }) => {
        const on = !settings.off.includes(id);
        return button(title, () => { of.change({ off: on ? [...settings.off, id] : settings.off.filter((other) => other !== id) }); desk(); }, { "aria-pressed": String(on) });
      })),
      make("p", { class: "exhibit-hint" }, word("exhibit.set-scenes-hint")),
      row(word("exhibit.set-code"), button(word("exhibit.code-change"), newCode)),
      make("h3", {}, word("exhibit.counts")), table(),
      make("p", { class: "exhibit-hint" }, word(of.kept() ? "exhibit.counts-hint" : "exhibit.counts-not-kept")),
      row(word("exhibit.counts-do"), button(word("exhibit.counts-save"), () => save("exhibit-counts.csv", of.counts.csv, "text/csv")), resetting())));
    const again = root.querySelector(".exhibit-desk");
    if (again) again.scrollTop = scroll;
  }

  function table() {
    const title = (/** @type {string} */ id) => of.scenes().find((scene) => scene.id === id)?.title ?? id;
    const rows = of.counts.rows.map((r) => make("tr", {},
      make("th", { scope: "row" }, r.scene ? title(r.scene) : word("exhibit.count-begun")),
      make("td", {}, of.languages.find(({ tag }) => tag === r.language)?.name ?? r.language),
      make("td", { class: "count" }, number(r.count, 0))));
    return make("table", { class: "exhibit-counts" },
      make("thead", {}, make("tr", {}, ...["what", "language", "count"].map((name) => make("th", { scope: "col" }, word(`exhibit.column-${name}`))))),
      make("tbody", {}, ...(rows.length ? rows : [make("tr", {}, make("td", { colspan: "3" }, word("exhibit.counts-none")))])));
  }

  /** Counts go only at a second touch. */
  function resetting() {
    let asked = false;
    const self = button(word("exhibit.counts-reset"), () => {
      if (!asked) { asked = true; say(self, word("exhibit.counts-reset-really")); return; }
      of.resetCounts();
      desk();
    });
    return self;
  }

  return {
    close,
    /** Whether the pad or the desk is shown. */
    get open() { return !root.hidden; },
  };
}
