// The list of everything that has happened, to jump to any of it.
import { make, the } from "../dom.js";
import { number, word } from "../words.js";

/**
 * @param {(action: string, args?: object) => any} go
 * @param {() => {time_s: number}} clock
 * @param {() => void} changed
 */
export function events(go, clock, changed) {
  const sheet = the("lecture-events");

  function draw() {
    const now = clock().time_s;
    const entries = /** @type {{event: number, time_s: number, text: string}[]} */ (go("entries"));
    const last = entries.findLast((entry) => entry.time_s <= now + 1e-9);
    sheet.querySelector("ol")?.replaceChildren(...entries.map((entry) => make("li", {}, make("button", {
      type: "button", "aria-current": entry === last ? "true" : false,
      onclick: () => { go("event", { event: entry.event }); close(); changed(); },
    }, make("span", {}, word("page.value-seconds", { value: number(entry.time_s, 2) })), make("span", {}, entry.text)))));
    const current = /** @type {HTMLElement | null} */ (sheet.querySelector("[aria-current]") ?? sheet.querySelector("button"));
    current?.focus();
    current?.scrollIntoView({ block: "center" });
  }

  function close() {
    // A button that is gone must not go on hearing the keys.
    if (sheet.contains(document.activeElement)) /** @type {HTMLElement} */ (document.activeElement).blur();
    sheet.hidden = true;
  }

  return {
    close,
    toggle() {
      if (!sheet.hidden) { close(); return; }
      sheet.hidden = false;
      draw();
    },
  };
}
