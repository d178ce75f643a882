// Access on every screen there is, in every state it shows at once: what axe
// finds, whether the markup is valid, sizes, and that the focus is seen.
import assert from "node:assert/strict";
import { after, before, describe, test } from "node:test";
import { found } from "./axe.mjs";
import { open } from "./browser.mjs";
import { invalid } from "./valid.mjs";

/** @param name of a screen; with &part=NAME one of its views */
async function go(page, name) {
  await page.evaluate((n) => { location.hash = n === "machine" ? "" : `screen=${n}`; }, name);
  await page.waitForFunction((n) => {
    if (n === "machine") return !document.querySelector("#machine").hidden;
    const [screen, part] = n.split("&part=");
    const root = document.querySelector(`#screen-${screen}`);
    return root?.dataset.ready && !document.querySelector("#room").hidden && !(part && root.querySelector(`[data-view="${part}"]`).hidden);
  }, name);
}

/** Every screen, and the views of the ring bench, which have an address of their own. */
async function names(page) {
  const all = await page.locator("#screens a[data-screen]").evaluateAll((links) => links.map((a) => a.dataset.screen));
  return all.flatMap((name) => (name === "ring" ? [name, "ring&part=match", "ring&part=panel"] : [name]));
}

for (const [theme, width] of [["light", 1280], ["dark", 360]]) {
  test(`axe and the checker of markup find nothing on any screen, ${theme}, ${width} px`, async () => {
    const page = await open("", { colorScheme: theme, viewport: { width, height: 800 } });
    for (const name of await names(page)) {
      await go(page, name);
      assert.deepEqual(await found(page), [], name);
      assert.equal(await invalid(page), "", name);
    }
    assert.deepEqual(page.faults, []);
    await page.context().close();
  });
}

test("axe and the checker of markup find nothing in the states of the machine's screen", async () => {
  const page = await open();
  const states = {
    "a close-up, enlarged, a part chosen": async () => {
      await page.locator("#closeup-open").click();
      await page.locator("#zoom-in").click();
      await page.locator("#part").selectOption("brush");
      await page.locator("#rim svg").waitFor();
    },
    "buttons by way, calls registered": () => page.evaluate(() => {
      wheelroom.load("name: Two ways\nfloors: [{name: G, height_m: 0}, {name: '1', height_m: 3.4}, {name: '2', height_m: 6.8}]\ncontrol: {scheme: two-button}\n");
      wheelroom.call("1:up");
      wheelroom.advance(0.4);
    }),
    "a list of events": () => page.locator("#events-open").click(),
    "a bad file": () => page.evaluate(() => { try { wheelroom.load("floors: 1"); } catch { /* shown in the page */ } }),
  };
  for (const [name, reach] of Object.entries(states)) {
    await reach();
    assert.deepEqual(await found(page), [], name);
    assert.equal(await invalid(page), "", name);
  }
  for (const other of ["about.html", "glossary.html"]) {
    await page.goto(new URL(other, page.url()).href);
    assert.deepEqual(await found(page), [], other);
  }
  assert.deepEqual(page.faults, []);
  await page.context().close();
});

// WCAG 2.2, 1.4.10: at 320 CSS pixels nothing has to be scrolled sideways but
// what is a table or a drawing.
test("every screen reflows at 320 px", async () => {
  const page = await open("", { viewport: { width: 320, height: 640 } });
  for (const name of await names(page)) {
    await go(page, name);
    assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), `${name} scrolls sideways`);
  }
  await page.context().close();
});

describe("the focus", () => {
  let page;
  before(async () => { page = await open(); });
  after(async () => { await page.context().close(); });

  test("is seen, and not covered, on everything Tab reaches", async () => {
    for (const name of await names(page)) {
      await go(page, name);
      await page.evaluate(() => { scrollTo(0, 0); document.activeElement?.blur(); document.querySelector("#skip").focus(); });
      const bad = [];
      let last = "";
      let stops = 0;
      for (; stops < 160; stops++) {
        await page.keyboard.press("Tab");
        const at = await page.evaluate(focusNow);
        if (at.end) break;
        if (at.bad && at.what !== last) bad.push(`${at.what}: ${at.bad}`);
        last = at.what;
      }
      assert.deepEqual(bad, [], name);
      assert.ok(stops > 12, `${name}: ${stops} stops`);
    }
  });
});

/** Runs in the page: what has the focus, and what is wrong with how it shows. */
function focusNow() {
  const e = document.activeElement;
  if (!e || e === document.body || e.id === "skip") return { end: true };
  const what = e.id || e.getAttribute("name") || `${e.tagName} ${e.textContent.trim().slice(0, 24)}`;
  if (e.tagName === "IFRAME") return { what, bad: document.querySelector("#stage").classList.contains("focused") ? "" : "no outline round the picture" };
  const shows = (x) => { const s = getComputedStyle(x); return s.outlineStyle !== "none" && parseFloat(s.outlineWidth) >= 2 && s.opacity !== "0"; };
  const ring = [e, e.parentElement].find(shows);
  if (!ring) return { what, bad: "no outline" };
  // WCAG 2.2, 1.4.11 and its contrast ratio: 3 to 1 against what lies around.
  const canvas = new OffscreenCanvas(1, 1).getContext("2d", { willReadFrequently: true });
  const rgba = (colour) => { canvas.clearRect(0, 0, 1, 1); canvas.fillStyle = colour; canvas.fillRect(0, 0, 1, 1); return [...canvas.getImageData(0, 0, 1, 1).data]; };
  const light = (c) => c.slice(0, 3).map((v) => (v / 255 <= 0.04045 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4)).reduce((sum, v, i) => sum + v * [0.2126, 0.7152, 0.0722][i], 0.05);
  let around = ring.parentElement;
  while (around.parentElement && rgba(getComputedStyle(around).backgroundColor)[3] < 255) around = around.parentElement;
  const [a, b] = [light(rgba(getComputedStyle(ring).outlineColor)), light(rgba(getComputedStyle(around).backgroundColor))];
  if (Math.max(a, b) / Math.min(a, b) < 3) return { what, bad: `outline ${(Math.max(a, b) / Math.min(a, b)).toFixed(1)} to 1` };
  const r = e.getBoundingClientRect();
  if (r.bottom <= 0 || r.top >= innerHeight || r.right <= 0 || r.left >= innerWidth) return { what, bad: "out of sight" };
  // Some of it is on top where it is (WCAG 2.2, 2.4.11).
  const seen = [[0.5, 0.5], [0.1, 0.5], [0.9, 0.5], [0.5, 0.1], [0.5, 0.9]].some(([kx, ky]) => {
    const hit = document.elementFromPoint(Math.min(innerWidth - 1, Math.max(0, r.left + kx * r.width)), Math.min(innerHeight - 1, Math.max(0, r.top + ky * r.height)));
    return hit && (e.contains(hit) || hit.contains(e) || hit.closest("label") === e.closest("label") && e.closest("label"));
  });
  return { what, bad: seen ? "" : "covered" };
}
