// Hand-winding, by keyboard and by pointer: the order is kept, the brake lets
// go by itself, the cautions stay.
import assert from "node:assert/strict";
import { after, before, describe, test } from "node:test";
import { serious } from "./axe.mjs";
import { open, snapshot } from "./browser.mjs";

const said = (page) => page.locator("#winding-said").textContent();
const state = (page, key) => page.locator(`#winding-state [data-key="${key}"] dd`).textContent();
const step = (page, key, which = 0) => page.locator(`[data-step="${key}"] button:not([hidden])`).nth(which).press("Enter");
const stands = (page, key, text) => page.locator(`#winding-state [data-key="${key}"] dd`, { hasText: text }).waitFor();

/** Every step up to the hands on the wheel. */
async function begin(page) {
  for (const key of ["people", "told", "isolated"]) await step(page, key);
  await step(page, "locked-off");
  await stands(page, "relays", "0 in");
  for (const key of ["proved-dead", "doors-shut", "hands"]) await step(page, key);
}

describe("hand-winding", () => {
  let page;
  before(async () => {
    page = await open();
    await page.evaluate(() => { location.hash = "#screen=winding"; });
    await page.waitForSelector("#screen-winding[data-ready]");
  });
  after(async () => { assert.deepEqual(page.faults, []); await page.context().close(); });

  test("stands beside its cautions, which nothing takes away", async () => {
    assert.ok(await page.locator("#winding-cautions li").count() >= 14);
    assert.equal(await page.locator(".cautions button, .cautions a, .cautions summary").count(), 0);
    assert.match(await page.locator("#winding-of").textContent(), /machine of its own/);
  });

  test("refuses a step out of its order, with the reason", async () => {
    await step(page, "power-on");
    assert.match(await page.locator('[data-step="power-on"] .refusal').textContent(), /Not yet\. First: Two authorised people/);
    await page.locator("#winding-hold").press("Space");
    assert.match(await said(page), /Not yet/);
  });

  test("is begun with the keys, the focus going on from step to step", async () => {
    await begin(page);
    assert.equal(await state(page, "power"), "off, isolator open");
    assert.equal(await page.evaluate(() => document.activeElement.closest("li").dataset.step), "move");
  });

  test("eases the brake as long as it is held, by key and by pointer, and no longer than a short movement", async () => {
    const hold = page.locator("#winding-hold");
    await page.locator('#winding-way input[value="down"]').check({ force: true });
    await hold.focus();
    await page.keyboard.down("Space");
    await stands(page, "brake", "eased");
    assert.equal(await hold.getAttribute("aria-pressed"), "true");
    await page.keyboard.up("Space");
    await stands(page, "brake", "set");
    await page.locator("#winding-said", { hasText: "One short movement" }).waitFor();
    const box = await hold.boundingBox();
    await page.mouse.move(box.x + 20, box.y + 20);
    await page.mouse.down();
    await stands(page, "brake", "eased");
    await stands(page, "brake", "set"); // by itself: the button is still down
    await page.waitForFunction(() => document.querySelector("#winding-hold").getAttribute("aria-pressed") === "false");
    await page.mouse.up();
    assert.match(await state(page, "turns"), /turns down/);
  });

  test("winds on to the marks, keeps ring and switches right, and ends with a call", async () => {
    await page.locator("#winding-amount").selectOption("marks");
    await page.locator("#winding-down").press("Enter");
    await page.locator("#winding-said", { hasText: "level at floor" }).waitFor({ timeout: 60_000 });
    assert.equal(await page.locator("#winding-switches .near td").nth(1).textContent(), "made");
    assert.equal(await page.locator("#winding-switches .near td").nth(3).textContent(), "dark");
    for (const key of ["level", "brake-set", "wheel-clear", "doors-again"]) await step(page, key);
    await step(page, "lock-removed", 1);
    assert.match(await page.locator('[data-step="lock-removed"] .refusal').textContent(), /Nobody else/);
    await step(page, "lock-removed", 0);
    await step(page, "power-on");
    await page.locator("#winding-call-buttons button").last().press("Enter");
    await page.waitForFunction(() => /^[1-9]\d{2}/.test(document.querySelector('#winding-state [data-key="speed"] dd').textContent));
    assert.equal((await snapshot(page)).time_s, 0, "the lift on the stage is left alone");
  });

  test("axe finds nothing serious, at any stage", async () => {
    assert.deepEqual(await serious(page), []);
    await page.locator("#winding-load").fill("0");
    await page.locator("#winding-begin").click();
    assert.match(await page.locator("#winding-drift").textContent(), /rises by itself/);
    assert.deepEqual(await serious(page), []);
  });
});

test("hand-winding fits a narrow page, with no motion where none is wanted", async () => {
  const page = await open("", { reducedMotion: "reduce", viewport: { width: 320, height: 700 }, colorScheme: "dark" });
  await page.evaluate(() => { location.hash = "#screen=winding"; });
  await page.waitForSelector("#screen-winding[data-ready]");
  await begin(page);
  await page.locator("#winding-up").press("Enter");
  await page.locator("#winding-said", { hasText: /1\.0 turns in \d+ short/ }).waitFor();
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), "no sideways scrolling");
  const small = await page.evaluate(() => [...document.querySelectorAll("#screen-winding button, #screen-winding select, #screen-winding input:not([type=radio])")]
    .filter((e) => e.offsetParent !== null).map((e) => [e.id || e.textContent, e.getBoundingClientRect()])
    .filter(([, r]) => r.width < 24 || r.height < 24).map(([name]) => name));
  assert.deepEqual(small, []);
  assert.deepEqual(await serious(page), []);
  assert.deepEqual(page.faults, []);
  await page.context().close();
});
