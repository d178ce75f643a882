// Taking away: sheets that print as vectors on A4 with nothing cut off,
// pictures, traces, a link; by keyboard and by pointer.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, describe, test } from "node:test";
import { serious } from "./axe.mjs";
import { open, snapshot } from "./browser.mjs";

const here = (page) => page.evaluate(() => { location.hash = "#screen=takeaway"; }).then(() => page.waitForSelector("#screen-takeaway[data-ready]"));

/** What a press of a button saves. */
async function saved(page, id) {
  const [download] = await Promise.all([page.waitForEvent("download"), page.locator(id).press("Enter")]);
  return { name: download.suggestedFilename(), text: readFileSync(await download.path(), "utf8") };
}

describe("taking away", () => {
  let page, folder;
  before(async () => {
    folder = mkdtempSync(join(tmpdir(), "sheets-"));
    page = await open();
    await page.evaluate(() => { wheelroom.call("3"); wheelroom.advance(6); wheelroom.call("1"); wheelroom.advance(60); });
    // The moment looked back at is the one that is taken.
    await page.locator("#scrub").focus();
    await page.keyboard.press("Home");
    for (let i = 0; i < 4; i++) await page.keyboard.press("PageUp");
    await page.waitForFunction(() => wheelroom.snapshot().time_s === 36);
    await here(page);
  });
  after(async () => {
    rmSync(folder, { recursive: true });
    assert.deepEqual(page.faults, []);
    await page.context().close();
  });

  test("shows the sheets as they will be, with building, scheme, moment, date and the caution", async () => {
    const sheets = page.locator(".paper");
    assert.equal(await sheets.count(), 3);
    for (const text of await sheets.evaluateAll((all) => all.map((e) => e.querySelector(".paper-head").textContent + e.querySelector(".paper-foot").textContent))) {
      for (const want of [/Tidemill House/, /directional/, /At 36\.0 s/, /qualifies nobody/, new RegExp(String(new Date().getFullYear())), /#moment=36&building=tidemill-house&do=3@0,1@6/]) assert.match(text, want);
    }
    await page.locator('#take-sheets input[value="relays"]').press("Space");
    await page.locator('#take-sheets label', { hasText: "Terminal schedule" }).click();
    assert.equal(await sheets.count(), 5);
    assert.match(await page.locator('[data-sheet="relays"]').textContent(), /Direction relayK3010/);
    assert.equal(await page.locator('[data-sheet="terminals"] .paper-table tbody tr').count(), 16);
    assert.deepEqual(await serious(page), []);
  });

  test("prints every sheet as vectors with no text cut off", async () => {
    for (const box of await page.locator("#take-sheets input").all()) await box.check();
    await page.emulateMedia({ media: "print" });
    const cut = await page.evaluate(() => [...document.querySelectorAll(".paper *")]
      .filter((e) => !e.closest("svg") && e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).display !== "inline").map((e) => e.className || e.tagName));
    assert.deepEqual(cut, []);
    const file = join(folder, "sheets.pdf");
    writeFileSync(file, await page.pdf({ preferCSSPageSize: true }));
    await page.emulateMedia({ media: "screen" });
    const images = execFileSync("pdfimages", ["-list", file], { encoding: "utf8" }).trim().split("\n");
    assert.equal(images.length, 2, `a heading and no raster image: ${images.join("\n")}`);
    const sizes = [...execFileSync("pdfinfo", ["-l", "99", file], { encoding: "utf8" }).matchAll(/Page +\d+ size: +([\d.]+) x ([\d.]+)/g)].map((m) => [Number(m[1]), Number(m[2])]);
    assert.ok(sizes.length >= 8 && sizes.every(([w, h]) => Math.abs(Math.min(w, h) - 595) < 2 && Math.abs(Math.max(w, h) - 842) < 2), sizes.join(" "));
    // All words of every sheet are on the paper, and all within its edges.
    const boxes = execFileSync("pdftotext", ["-bbox", file, "-"], { encoding: "utf8" });
    const pages = boxes.split("<page ").slice(1);
    for (const [n, text] of pages.entries()) {
      const [width, height] = [Number(/width="([\d.]+)"/.exec(text)[1]), Number(/height="([\d.]+)"/.exec(text)[1])];
      const words = [...text.matchAll(/<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">([^<]*)</g)];
      assert.ok(words.length > 20, `page ${n + 1}`);
      for (const [, x0, y0, x1, y1, word] of words) {
        assert.ok(x0 >= 20 && y0 >= 20 && x1 <= width - 20 && y1 <= height - 20, `${word} on page ${n + 1}`);
      }
      const all = words.map((w) => w[5]).join(" ");
      for (const want of ["qualifies nobody", "Tidemill House:", "36.0 s"]) assert.ok(all.includes(want), `${want} on page ${n + 1}`);
    }
    const spoken = pages.join(" ").replace(/<[^>]*>/g, " ").replace(/\s+/g, " ");
    for (const want of ["up line", "down line", "handwheel", "position lamp", "call above", "What it does", "Feeds the lamp"]) assert.ok(spoken.includes(want), want);
  });

  test("saves a picture that carries its own type, by keyboard", async () => {
    await page.locator("#take-picture").selectOption("wheel");
    await page.locator("#take-theme").selectOption("slate");
    const { name, text } = await saved(page, "#take-svg");
    assert.equal(name, "tidemill-house-wheel-36.0s.svg");
    assert.match(text, /^<svg/);
    assert.match(text, /<title[^>]*>Tidemill House, Selector wheel, at 36\.0 s<\/title>/);
    assert.match(text, /@font-face/);
    assert.doesNotMatch(text, /<image/);
    assert.ok(text.match(/<(path|polygon|line|circle|polyline)/g).length > 100);
  });

  test("saves the run as CSV and as VCD, up to the moment", async () => {
    const csv = await saved(page, "#take-csv");
    assert.equal(csv.name, "tidemill-house-36.0s.csv");
    const rows = csv.text.trim().split(/\r?\n/);
    assert.equal(rows[0], "time_s,signal,value");
    assert.ok(Number(rows.at(-1).split(",")[0]) <= 36);
    assert.ok(rows.some((row) => /,stop,3$/.test(row)));
    const vcd = await saved(page, "#take-vcd");
    assert.match(vcd.text, /^\$timescale 1 ms \$end/);
    assert.match(await page.locator("#take-note").textContent(), /\.vcd/);
  });

  test("gives a link to the moment that brings it back", async () => {
    const link = await page.locator("#take-link").inputValue();
    await page.locator("#take-copy").click();
    await page.locator("#take-note", { hasText: /link is/ }).waitFor();
    const then = await snapshot(page);
    await page.evaluate((hash) => { location.hash = hash; }, new URL(link).hash);
    await page.waitForFunction(() => !document.querySelector("#machine").hidden && !document.querySelector("#transport").classList.contains("looking"));
    assert.deepEqual(await snapshot(page), then);
  });
});
