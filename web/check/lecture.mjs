// The view for a lecture: presenter keys, hidden answers, counted hands, and
// nothing lost by a reload.
import assert from "node:assert/strict";
import { after, before, describe, test } from "node:test";
import { open, snapshot } from "./browser.mjs";

const ask = (page, name, ...args) => page.frame({ url: /frame/ }).evaluate(([n, a]) => JSON.parse(stage[n](...a)).value, [name, args]);
const state = async (page) => (await ask(page, "lesson"))?.state;
const key = (page, name) => page.keyboard.press(name);

/** Presses Page Down until the lesson stands at a state. */
async function forward(page, wanted, most = 20) {
  for (let i = 0; i < most && (await state(page)) !== wanted; i++) await key(page, "PageDown");
  assert.equal(await state(page), wanted);
}

describe("a lecture", () => {
  let page;
  before(async () => { page = await open("?view=lecture#lesson=two-calls&item=2", { viewport: { width: 1920, height: 1080 } }); });
  after(async () => { assert.deepEqual(page.faults, []); await page.context().close(); });

  test("fills the screen with the picture, and its type is large", async () => {
    assert.ok(await page.locator(".head").isHidden());
    await forward(page, "asked");
    const sizes = await page.evaluate(() => [...document.querySelectorAll("#lecture-side *")]
      .filter((e) => [...e.childNodes].some((n) => n.nodeType === 3 && n.textContent.trim()) && e.checkVisibility())
      .map((e) => parseFloat(getComputedStyle(e).fontSize) / innerHeight));
    assert.ok(sizes.length > 5);
    for (const size of sizes) assert.ok(size >= 0.035, `${size}`);
    await key(page, "q");
    const { width, height } = await page.locator("#stage").boundingBox();
    assert.deepEqual([width, height], [1920, 1080]);
    await key(page, "q");
  });

  test("counts hands by keys and hides them until revealed, twice", async () => {
    await key(page, "h");
    for (const k of ["1", "1", "2", "2", "2", "3", "Shift+Digit3"]) await key(page, k);
    const hands = page.locator("#lecture-hands");
    assert.match(await hands.textContent(), /5 hands counted/);
    assert.equal(await hands.locator("td").count(), 0, "no count is shown");
    await key(page, "v");
    assert.deepEqual(await hands.locator("td.count").allTextContents(), ["2", "3", "0"]);
    await key(page, "d");
    assert.equal(await hands.locator("td").count(), 0, "the second count is hidden again");
    for (const k of ["1", "1", "1", "1", "2"]) await key(page, k);
    await key(page, "v");
    assert.deepEqual(await hands.locator("td.count").allTextContents(), ["2", "4", "3", "1", "0", "0"]);
  });

  test("blanks by the point and B, and comes back as it was", async () => {
    const was = await snapshot(page);
    await key(page, ".");
    assert.ok(await page.locator("#lecture-blank").isVisible());
    await key(page, "PageDown");
    assert.ok(await page.locator("#lecture-blank").isHidden(), "any key only brings it back");
    assert.deepEqual(await snapshot(page), was);
    await key(page, "b");
    await key(page, "B");
    assert.ok(await page.locator("#lecture-blank").isHidden());
  });

  test("loses nothing by Escape or a reload", async () => {
    const told = async () => ({ side: await page.locator("#lecture-side").textContent(), snapshot: await snapshot(page) });
    const was = await told();
    await key(page, "Escape");
    assert.deepEqual(await told(), was);
    await page.reload();
    await page.waitForSelector("#stage[data-ready]");
    assert.deepEqual(await told(), was);
  });

  test("keeps the answer hidden until it is asked for", async () => {
    await forward(page, "explained", 30);
    const side = page.locator("#lecture-side");
    assert.equal(await side.locator(".lecture-outcome, [data-right]").count(), 0);
    await key(page, "a");
    assert.match(await side.locator(".lecture-outcome").textContent(), /Floor 5, then floor 2/);
    assert.equal(await side.locator('[data-right="yes"]').count(), 1);
    await key(page, "a");
    assert.equal(await side.locator(".lecture-outcome").count(), 0);
  });

  test("jumps to any event, steps, and freezes", async () => {
    await key(page, "e");
    const events = page.locator("#lecture-events ol button");
    assert.ok(await events.count() > 20);
    await events.nth(3).click();
    const at = (await snapshot(page)).time_s;
    assert.ok(at < 3, `${at}`);
    await key(page, "ArrowRight");
    assert.ok((await snapshot(page)).time_s >= at);
    await key(page, "ArrowLeft");
    assert.equal((await snapshot(page)).time_s, at);
    await key(page, " ");
    assert.ok((await ask(page, "clock")).running);
    await key(page, " ");
    assert.ok(!(await ask(page, "clock")).running);
    await key(page, "s");
    assert.equal((await ask(page, "clock")).speed, 0.25);
    await key(page, "s");
  });

  test("takes a step back with Page Up", async () => {
    await key(page, "PageDown"); // to the end of the run
    const was = await page.locator("#lecture-side").textContent();
    await key(page, "a");
    await key(page, "a");
    await key(page, "PageDown"); // shows the answer
    await key(page, "PageDown"); // next item
    assert.equal((await ask(page, "lesson")).item, 3);
    await key(page, "PageUp");
    await key(page, "PageUp");
    assert.equal((await ask(page, "lesson")).item, 2);
    assert.equal(await page.locator("#lecture-side").textContent(), was);
  });

  test("enlarges a part under the pointer", async () => {
    const box = await ask(page, "box", "relay.up");
    const place = await page.locator("#stage").boundingBox();
    await page.mouse.click(place.x + (box.x0 + box.x1) / 2, place.y + (box.y0 + box.y1) / 2);
    assert.ok(await page.locator("#lecture-loupe svg").isVisible());
    assert.match(await page.locator("#lecture-loupe-name").textContent(), /up relay/);
    await key(page, "Escape");
    assert.ok(await page.locator("#lecture-loupe").isHidden());
  });

  test("gives an address of its exact state", async () => {
    const was = await snapshot(page);
    const address = await ask(page, "screen", "lecture", "pack", "{}");
    const other = await open(`?view=lecture#state=${address}`);
    assert.deepEqual(await snapshot(other), was);
    assert.equal((await ask(other, "lesson")).item, 2);
    await other.context().close();
  });

  test("shows the answer on the lecturer's own screen, and takes its keys", async () => {
    const [notes] = await Promise.all([page.waitForEvent("popup"), key(page, "n")]);
    await notes.waitForSelector(".lecture-notes .answer");
    assert.match(await notes.locator(".answer").textContent(), /Floor 5, then floor 2/);
    assert.ok(await page.locator(".lecture-outcome").count() === 0);
    await notes.locator("body").press("a");
    await page.waitForSelector(".lecture-outcome");
    await notes.close();
  });
});
