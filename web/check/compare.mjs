// Two runs side by side on one clock, by pointer and by keyboard.
import assert from "node:assert/strict";
import { after, before, describe, test } from "node:test";
import { serious } from "./axe.mjs";
import { open, snapshot } from "./browser.mjs";

const worked = (page) => page.waitForFunction(() => !document.querySelector("#compare-run").disabled && /worked out\.$/.test(document.querySelector("#compare-status").textContent));
const clock = (page) => page.locator("#compare-clock").textContent().then((text) => Number(text.split(" ")[0]));
const floors = (page, side) => page.locator("#compare-stops tbody tr").evaluateAll((rows, s) => rows.map((row) => row.querySelectorAll(".compare-floor")[s]?.textContent ?? ""), side);
const drawn = (page, side) => page.locator(`.compare-run[data-side="${side}"] [data-picture="shaft"]`).innerHTML();

describe("comparing", () => {
  let page;
  before(async () => {
    page = await open("#screen=compare");
    await page.waitForSelector("#screen-compare[data-ready]");
    await worked(page);
  });
  after(async () => { assert.deepEqual(page.faults, []); await page.context().close(); });

  test("begins with two schemes that serve the same calls in another order", async () => {
    const [first, second] = [await floors(page, 0), await floors(page, 1)];
    assert.deepEqual([...first].sort(), [...second].sort());
    assert.notDeepEqual(first, second);
    assert.equal(await page.locator("#compare-stops tr.differs").count(), 2);
    assert.match(await page.locator("#compare-name-0").textContent(), /directional/);
    assert.match(await page.locator("#compare-name-1").textContent(), /interlocked/);
    assert.equal((await snapshot(page)).time_s, 0, "the machine on the stage is left alone");
    assert.deepEqual(await serious(page), []);
  });

  test("draws both shafts and charts, and moves them with the slider, by pointer and by keys", async () => {
    assert.equal(await page.locator(".compare-run .live > svg").count(), 8);
    const still = [await drawn(page, 0), await drawn(page, 1)];
    const box = await page.locator("#compare-scrub").boundingBox();
    await page.mouse.click(box.x + box.width / 2, box.y + 20);
    await page.waitForFunction(() => Number(document.querySelector("#compare-clock").textContent.split(" ")[0]) > 20);
    for (const side of [0, 1]) assert.notEqual(await drawn(page, side), still[side]);
    await page.locator("#compare-scrub").focus();
    await page.keyboard.press("Home");
    await page.waitForFunction(() => document.querySelector("#compare-clock").textContent === "0.0 s");
    await page.keyboard.press("PageUp");
    await page.waitForFunction(() => document.querySelector("#compare-scrub").getAttribute("aria-valuetext").startsWith("9.0 s of "));
    assert.match(await page.locator('.compare-run[data-side="0"] [data-picture="shaft"]').getAttribute("aria-label"), /on its way/);
  });

  test("steps to what a passenger of either would notice, forth and back", async () => {
    await page.locator("#compare-again").click();
    const there = [];
    for (let i = 0; i < 8; i++) { await page.locator("#compare-step").press("Enter"); there.push(await clock(page)); }
    assert.deepEqual(there, there.toSorted((a, b) => a - b));
    assert.ok(there.at(-1) > 5);
    for (let i = 6; i >= 0; i--) { await page.locator("#compare-back").press("Enter"); assert.equal(await clock(page), there[i]); }
  });

  test("runs and pauses", async () => {
    await page.locator('#compare-speed input[value="16"]').check({ force: true });
    const before = await clock(page);
    await page.locator("#compare-run").press("Enter");
    await page.waitForFunction((t) => Number(document.querySelector("#compare-clock").textContent.split(" ")[0]) > t + 1, before);
    await page.locator("#compare-run").click();
    assert.equal(await page.locator("#compare-run").textContent(), "Run");
  });

  test("works out another building at once, and refuses what it cannot in words", async () => {
    await page.locator("#compare-building-1").selectOption("lantern-row");
    await worked(page);
    assert.match(await page.locator("#compare-name-1").textContent(), /Lantern Row/);
    assert.ok((await page.locator("#compare-figures tbody tr").count()) >= 6);
    await page.locator("#compare-calls-1").fill("99@1");
    await page.locator("#compare-calls-1").press("Enter");
    await page.waitForFunction(() => document.querySelector("#compare-wrong-1").textContent.includes("99"));
    assert.equal(await page.locator("#compare-calls-1").getAttribute("aria-invalid"), "true");
    await page.locator("#compare-calls-1").fill("2@0, 3@0.5");
    await page.locator("#compare-calls-1").press("Enter");
    await worked(page);
    assert.equal(await page.locator("#compare-wrong-1").textContent(), "");
    assert.equal((await floors(page, 1)).filter((f) => f).length, 2);
  });

  test("fits a phone", async () => {
    await page.setViewportSize({ width: 360, height: 800 });
    assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth));
  });
});
