// The screens beside the machine: one is shown at a time, the address says
// which. A screen's markup, words and module are fetched when it is first
// opened; the frame with the machine stays alive behind it.
import { make, say, the } from "./dom.js";
import { learn, word } from "./words.js";

/** @typedef {import("./stage.js").Stage} Stage */

/**
 * What a screen's module returns.
 * @typedef {object} Screen
 * @property {() => void} show called each time it comes to the front, also when its address changes
 * @property {() => void} hide
 */

/**
 * @param {Stage} stage
 * @param {(text: string) => void} notice says what the address asked in vain
 */
export function screens(stage, notice) {
  const nav = the("screens");
  const menu = /** @type {HTMLButtonElement} */ (the("menu"));
  const room = the("room");
  const title = document.title;
  /** @type {Map<string, HTMLAnchorElement>} */
  const links = new Map([...nav.querySelectorAll("a")].map((link) => [link.dataset.screen ?? "", link]));
  /** @type {Map<string, {root: HTMLElement, screen: Screen}>} */
  const opened = new Map();
  let at = "machine";
  let running = ""; // state of the machine that ran when it was left, "" for one that stood

  const fold = (/** @type {boolean} */ open) => {
    nav.classList.toggle("open", open);
    menu.setAttribute("aria-expanded", String(open));
  };
  menu.addEventListener("click", () => fold(!nav.classList.contains("open")));
  nav.addEventListener("click", () => fold(false));
  addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || !nav.classList.contains("open")) return;
    fold(false);
    menu.focus();
  });
  the("skip").addEventListener("click", (event) => {
    // The address belongs to the screens, so the way there is by focus alone.
    event.preventDefault();
    (at === "machine" ? the("picture") : heading(at))?.focus();
  });

  const heading = (/** @type {string} */ name) =>
    /** @type {HTMLElement | null | undefined} */ (opened.get(name)?.root.querySelector("h2"));

  /** @param {string} name */
  async function go(name) {
    if (!links.has(name)) {
      notice(word("screens.unknown", { screen: name }));
      name = "machine";
    }
    const moved = name !== at;
    if (moved) leave(name);
    for (const [other, link] of links) {
      if (other === name) link.setAttribute("aria-current", "page");
      else link.removeAttribute("aria-current");
    }
    document.title = name === "machine" ? title : word("screens.title", { screen: word(`screens.${name}`) });
    the("machine").hidden = name !== "machine";
    room.hidden = name === "machine";
    if (name === "machine") {
      if (moved) { resume(); the("picture").focus({ preventScroll: true }); }
      return;
    }
    try {
      if (!opened.has(name)) {
        if (moved) room.replaceChildren(make("p", { class: "screen-wait", role: "status" }, word("screens.loading")));
        opened.set(name, await fetched(name, stage));
      }
    } catch (error) {
      if (at === name) room.replaceChildren(make("p", { class: "notice" }, word("screens.failed", { reason: String(/** @type {Error} */ (error).message) })));
      return;
    }
    if (at !== name) return; // the reader has gone on meanwhile
    const { root, screen } = /** @type {{root: HTMLElement, screen: Screen}} */ (opened.get(name));
    if (room.firstChild !== root) room.replaceChildren(root);
    screen.show();
    if (moved) {
      scrollTo(0, 0);
      heading(name)?.focus({ preventScroll: true });
    }
    root.dataset.ready = "1";
  }

  /** Lets go of what is shown. A machine that runs waits until one comes back.
   * @param {string} next */
  function leave(next) {
    if (at === "machine") {
      running = stage.ask("clock").running ? stage.ask("hash") : "";
      if (running) { stage.ask("pause"); running = stage.ask("hash"); }
    } else opened.get(at)?.screen.hide();
    at = next;
  }

  /** Goes on where the machine was left, unless it is another one now. */
  function resume() {
    if (running && stage.ask("hash") === running) stage.ask("run");
    running = "";
  }

  return {
    go,
    /** The screen that is shown. */
    get at() { return at; },
  };
}

/**
 * Fetches a screen: its markup with its words in front, and its module.
 * @param {string} name
 * @param {Stage} stage
 */
async function fetched(name, stage) {
  const [markup, module] = await Promise.all([fragment(name), import(`./screens/${name}.js`)]);
  const title = make("h2", { tabindex: "-1", id: `screen-${name}-title`, class: "screen-title" });
  say(title, word(`screens.${name}`));
  const root = make("section", { class: `screen screen-${name}`, id: `screen-${name}`, "aria-labelledby": title.id });
  root.append(title, ...markup);
  return { root, screen: /** @type {Screen} */ (module.screen(root, stage, word)) };
}

/**
 * Fetches markup of the page by name and learns the words in front of it.
 * @param {string} name
 */
export async function fragment(name) {
  const answer = await fetch(`screens/${name}.html`);
  if (!answer.ok) throw new Error(`${answer.status} ${answer.statusText}`);
  const parsed = new DOMParser().parseFromString(await answer.text(), "text/html");
  await Promise.all([...parsed.querySelectorAll("link")].map(styled));
  const words = parsed.querySelector("script");
  learn(JSON.parse(words?.textContent ?? "{}"));
  words?.remove();
  return [...parsed.body.children].map((child) => document.adoptNode(child));
}

/** Moves a screen's style sheet to the page and waits for it. @param {HTMLLinkElement} link */
function styled(link) {
  const sheet = make("link", { rel: "stylesheet", href: link.getAttribute("href") ?? "" });
  link.remove();
  return new Promise((resolve, reject) => {
    sheet.addEventListener("load", resolve);
    sheet.addEventListener("error", () => reject(new Error(sheet.href)));
    document.head.append(sheet);
  });
}

/**
 * Asks a screen's part of the program; a refusal throws a StageError.
 * @param {Stage} stage
 * @param {string} name of the screen
 * @param {string} action
 * @param {object} [args]
 * @returns {any}
 */
export function ask(stage, name, action, args = {}) {
  return stage.ask("screen", name, action, JSON.stringify(args));
}
