// The ring bench, by keyboard and by pointer.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after, before, describe, test } from "node:test";
import { serious } from "./axe.mjs";
import { open } from "./browser.mjs";

async function turn(page, address) {
  await page.evaluate((to) => { location.hash = to; }, address);
  await page.waitForSelector("#screen-ring[data-ready]");
}

/** Takes a file away. */
async function taken(page, deed) {
  const [download] = await Promise.all([page.waitForEvent("download"), deed()]);
  return { name: download.suggestedFilename(), text: await readFile(await download.path(), "utf8") };
}

describe("the ring bench: laying out", () => {
  let page;
  const terminals = () => page.locator("#ring-schedule tbody tr").count();
  const floor = (k) => page.locator(`#ring-schedule [data-terminal="${k}"] td`).last().textContent();
  before(async () => { page = await open(); await turn(page, "#screen=ring"); });
  after(async () => { assert.deepEqual(page.faults, []); await page.context().close(); });

  test("says where the lamps follow each other, and what would part them", async () => {
    assert.equal(await terminals(), 16);
    assert.match(await page.locator("#ring-notes").textContent(), /Floor 4 follows floor 3 without a dark interval/);
    assert.match(await page.locator("#ring-advice").textContent(), /no ring does that/);
  });

  test("moves a join by keyboard, back by undo", async () => {
    await page.locator("#ring-terminal").focus();
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("ArrowDown");
    assert.equal(await page.locator("#ring-terminal").inputValue(), "2");
    await page.keyboard.press("Tab");
    await page.keyboard.press("End");
    await page.waitForFunction(() => /G/.test(document.querySelector('#ring-schedule [data-terminal="2"]').textContent));
    assert.match(await floor(2), /^G by hand/);
    assert.ok(await page.locator("#ring-put").isEnabled());
    await page.locator("#ring-undo").press("Enter");
    assert.equal(await floor(2), "blank");
    assert.ok(await page.locator("#ring-put").isDisabled());
  });

  test("is chosen from by pointer", async () => {
    await page.locator('#ring-strip [data-part="terminal.5"]').first().click();
    assert.equal(await page.locator("#ring-terminal").inputValue(), "5");
    await page.locator('#ring-schedule [data-terminal="7"] button').click();
    assert.equal(await page.locator("#ring-terminal").inputValue(), "7");
  });

  test("says what is wrong in words", async () => {
    await page.locator("#ring-per-floor").fill("9");
    await page.keyboard.press("Enter");
    await page.locator("#ring-faults .fault").first().waitFor();
    assert.match(await page.locator("#ring-faults").textContent(), /8/);
    assert.equal(await page.locator("#ring-per-floor").getAttribute("aria-invalid"), "true");
    assert.ok(await page.locator("#ring-put").isDisabled());
    await page.locator("#ring-reset").click();
    assert.equal(await page.locator("#ring-per-floor").inputValue(), "2.8");
    assert.ok(await page.locator("#ring-faults").isHidden());
  });

  test("uses a proposal and puts it into the building", async () => {
    await page.locator("#ring-advice button").first().press("Enter");
    assert.doesNotMatch(await page.locator("#ring-boundaries tbody").textContent(), /no dark interval/);
    await page.locator("#ring-put").press("Enter");
    await page.locator("#ring-state", { hasText: "has this ring now" }).waitFor();
    const text = await page.evaluate(() => JSON.parse(localStorage.getItem("building")).text);
    assert.match(text, /first_terminal_m: -0\.32/);
    assert.ok(await page.locator("#ring-reset").isDisabled());
  });

  test("is taken away", async () => {
    const table = await taken(page, () => page.locator('[data-file="csv"]').click());
    assert.match(table.text, /^index,angle_deg,height_m,floor/);
    const sheet = await taken(page, () => page.locator('[data-file="sheet"]').click());
    assert.match(sheet.text, /^<svg[^>]*>\s*<style>/);
  });

  test("axe finds nothing serious", async () => assert.deepEqual(await serious(page), []));
});
