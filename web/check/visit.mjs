// What the tests of the exhibition share: opening it and going through it.
// They run it four times as fast and with all the patience there is where
// nothing else is said.
import { open } from "./browser.mjs";

/** Everything that keeps the exhibit's slots says what they hold. */
export const slot = (number, value) => {
  const body = `${number} ${JSON.stringify(value)}`;
  let sum = 0x811c9dc5;
  for (const byte of new TextEncoder().encode(body)) sum = Math.imul(sum ^ byte, 0x01000193) >>> 0;
  return [`exhibit-${number % 2}`, `${sum.toString(16).padStart(8, "0")} ${body}`];
};

/** The longest times that can be set. */
export const patient = { settings: { idleS: 90, warningS: 60 } };

/**
 * Opens the exhibit.
 * @param {object} [options] of `open`; `site`, `folder`, `query` and `hash` of the address, `kept` what its slots hold
 */
export function exhibit({ query = "&pace=4", hash = "", site = "", folder = "", kept = patient, before, ...options } = {}) {
  return patiently(open(`${site}${folder}?view=exhibit${query}${hash}`, {
    viewport: { width: 1280, height: 720 }, ...options,
    before: async (page) => {
      if (kept) await page.addInitScript(([name, text]) => { if (!localStorage.getItem(name)) localStorage.setItem(name, text); }, slot(1, kept));
      await before?.(page);
    },
  }));
}

// What runs by itself takes its time, and more on a computer that is busy.
async function patiently(opened) {
  const page = await opened;
  page.setDefaultTimeout(60_000);
  return page;
}

export const ask = (page, name, ...args) => page.frame({ url: /frame/ }).evaluate(([n, a]) => JSON.parse(stage[n](...a)).value, [name, args]);

/** Lets so many seconds of the exhibit seem to have passed, at the usual pace of these tests. */
export const later = (page, seconds) => page.evaluate((ms) => {
  const was = performance.now.bind(performance);
  performance.now = () => was() + ms;
}, 1000 * seconds / 4);

export const at = (page) => page.locator("#exhibit-panel").getAttribute("data-screen");

/** Lets the machine's time pass until a screen is shown. */
export async function reach(page, screen) {
  await page.waitForFunction((name) => {
    if (document.querySelector("#exhibit-panel").dataset.screen === name) return true;
    try { wheelroom.advance(5); } catch { /* nothing may move now */ }
    return false;
  }, screen, { polling: 30, timeout: 60_000 });
}

/** From wherever it stands to the explanation of an answer. */
export async function answer(page, i) {
  await reach(page, "asked");
  await page.locator(".exhibit-choices button").nth(i).click();
  await reach(page, "explained");
}

export const begin = (page) => page.locator('#exhibit-panel[data-screen="attract"] button').click();

/** Opens the staff's settings from the keyboard. */
export async function staff(page, code = "3141") {
  await page.locator("#exhibit-corner").focus();
  await page.keyboard.press("Enter");
  for (const digit of code) await page.locator(".exhibit-digits button", { hasText: digit }).click();
}
