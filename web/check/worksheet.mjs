// Worksheets: what comes out of the printer is vectors on A4, nothing cut.
import assert from "node:assert/strict";
import { after, before, describe, test } from "node:test";
import { open } from "./browser.mjs";

describe("worksheets", () => {
  let page;
  before(async () => { page = await open("#screen=worksheet&lesson=two-calls"); await page.waitForSelector("#worksheet-pages .sheet"); });
  after(async () => { assert.deepEqual(page.faults, []); await page.context().close(); });

  test("show every item, its caution and its exact link", async () => {
    const sheets = page.locator("#worksheet-pages .sheet");
    assert.equal(await sheets.count(), 6);
    for (const text of await sheets.allTextContents()) assert.match(text, /qualifies nobody/);
    assert.match(await sheets.nth(1).locator(".source a").getAttribute("href"), /#lesson=two-calls&item=2$/);
  });

  test("print on one page an item, as vectors, with nothing cut off", async () => {
    await page.emulateMedia({ media: "print" });
    const cut = await page.evaluate(() => [...document.querySelectorAll("#worksheet-pages .sheet *")]
      .filter((e) => !e.closest("svg") && e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).display !== "inline").map((e) => e.className || e.tagName));
    assert.deepEqual(cut, []);
    const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
    assert.doesNotMatch(pdf, /\/Subtype\s*\/Image/);
    assert.match(pdf, /\/MediaBox\s*\[\s*0 0 59[45][.\d]* 84[12][.\d]*\s*\]/);
    // Five items, and the answers on one or two.
    const pages = (pdf.match(/\/Type\s*\/Page\b/g) ?? []).length;
    assert.ok(pages === 6 || pages === 7, `${pages} pages`);
    await page.emulateMedia({ media: "screen" });
  });

  test("make a class set with its key, and the same set again", async () => {
    await page.locator("#worksheet-copies").fill("4");
    await page.locator("#worksheet-copies").press("Tab");
    await page.waitForFunction(() => document.querySelectorAll("#worksheet-pages .sheet").length === 22);
    const key = () => page.locator(".key tbody tr").allTextContents();
    const first = await key();
    assert.equal(first.length, 4);
    await page.locator("#worksheet-seed").fill("2");
    await page.locator("#worksheet-seed").press("Tab");
    const keyIs = (same) => page.waitForFunction(([old, same]) =>
      ([...document.querySelectorAll(".key tbody tr")].map((row) => row.textContent).join() === old) === same, [first.join(), same]);
    await keyIs(false);
    await page.locator("#worksheet-seed").fill("1");
    await page.locator("#worksheet-seed").press("Tab");
    await keyIs(true);
  });
});
