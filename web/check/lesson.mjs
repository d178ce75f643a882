// The lesson: nothing of the asked run moves before an answer is committed,
// and the outcome stands beside the prediction afterwards.
import assert from "node:assert/strict";
import { after, before, describe, test } from "node:test";
import { open, snapshot } from "./browser.mjs";

const state = (page) => page.frame({ url: /frame/ }).evaluate(() => JSON.parse(stage.lesson()).value?.state);

describe("the lesson", () => {
  let page;
  before(async () => { page = await open("#lesson=two-calls&item=2"); });
  after(async () => { assert.deepEqual(page.faults, []); await page.context().close(); });

  test("opens from the address at the item asked for", async () => {
    assert.match(await page.locator(".lesson-count").textContent(), /item 2 of/);
    assert.equal(await state(page), "lead-in");
  });

  test("runs its lead-in up to the frozen frame and no further", async () => {
    await page.evaluate(() => wheelroom.advance(60));
    assert.equal(await state(page), "asked");
    const frozen = await snapshot(page);
    assert.equal(frozen.calls["2"] + frozen.calls["5"], 2);
    assert.notEqual(frozen.time_s, 60);
  });

  test("asks with nothing chosen and nothing that could move the machine", async () => {
    assert.equal(await page.locator(".option input:checked").count(), 0);
    for (const id of ["#run", "#step"]) assert.ok(await page.locator(id).isDisabled(), id);
    assert.ok(await page.locator('button[data-do="commit"]').isDisabled());
    assert.ok(await page.locator("#calls").isHidden());
    const frozen = await snapshot(page);
    for (const deed of [["run"], ["advance", 1], ["call", "4"]]) {
      const refused = await page.evaluate(([name, arg]) => { try { wheelroom[name](arg); return ""; } catch (e) { return e.message; } }, deed);
      assert.ok(refused, `${deed} is refused in words`);
    }
    assert.deepEqual(await snapshot(page), frozen);
    const panel = await page.locator("#lesson").textContent();
    assert.doesNotMatch(panel, /What the machine did|prediction/i);
  });

  test("a choice enables the commit and may be changed", async () => {
    await page.locator(".option").nth(1).click();
    await page.waitForFunction(() => !document.querySelector('button[data-do="commit"]').disabled);
    await page.locator(".option").nth(0).click();
    assert.equal(await page.locator(".option input:checked").count(), 1);
  });

  test("commit starts the run, and the answer can no longer be changed", async () => {
    await page.locator('button[data-do="commit"]').click();
    await page.waitForFunction(() => !document.querySelector(".option"));
    assert.match(await page.locator(".pair").textContent(), /Your prediction/);
  });

  test("runs in segments, then asks what happened, then explains from the run", async () => {
    for (let i = 0; i < 12 && (await state(page)) !== "observe"; i++) {
      if ((await state(page)) === "paused") await page.locator('button[data-do="continue"]').click();
      await page.evaluate(() => wheelroom.advance(120));
    }
    assert.equal(await state(page), "observe");
    assert.equal(await page.locator(".option input:checked").count(), 0);
    assert.ok(await page.locator('button[data-do="observe"]').isDisabled());
    await page.locator(".option").nth(0).click();
    await page.locator('button[data-do="observe"]').click();
    await page.waitForFunction(() => document.querySelector(".explanation"));
    assert.equal(await state(page), "explained");
    const pair = await page.locator(".pair").textContent();
    for (const words of ["Your prediction", "What you saw", "What the machine did"]) assert.ok(pair.includes(words), words);
    assert.ok((await page.locator(".explanation").textContent()).length > 80);
    assert.doesNotMatch(await page.locator("#lesson").textContent(), /[⟦{]/);
  });

  test("keeps item and machine when the frame is lost", async () => {
    const before = await page.evaluate(() => ({ s: wheelroom.snapshot(), panel: document.querySelector("#lesson").textContent }));
    await page.frame({ url: /frame/ }).evaluate(() => {
      const canvas = document.querySelector("canvas");
      canvas.getContext("webgl2").getExtension("WEBGL_lose_context").loseContext();
    });
    await page.waitForFunction(() => document.querySelector("#stage").dataset.losses === "1", undefined, { timeout: 60_000 });
    const after = await page.evaluate(() => ({ s: wheelroom.snapshot(), panel: document.querySelector("#lesson").textContent }));
    assert.deepEqual(after, before);
    page.faults = page.faults.filter((fault) => !/CONTEXT_LOST|context lost/i.test(fault));
  });

  test("goes on to the next item and can be left", async () => {
    await page.locator('button[data-do="next"]').click();
    await page.waitForFunction(() => location.hash.includes("item=3"));
    await page.getByRole("button", { name: "Leave the lesson" }).click();
    assert.ok(await page.locator("#calls").isVisible());
    assert.equal(await page.evaluate(() => location.hash), "");
  });
});

describe("an address", () => {
  test("that names no lesson there is, or a view this version lacks, is told so", async () => {
    const page = await open("?view=no-such-view#lesson=no-such-lesson");
    assert.match(await page.locator("#notice").textContent(), /no-such-lesson|no-such-view/);
    assert.ok(await page.locator("#calls").isVisible());
    assert.deepEqual(page.faults, []);
    await page.context().close();
  });
});
