// Opening a building: what is wrong is listed where it was chosen, and the
// machine one had goes on.
import assert from "node:assert/strict";
import { after, before, describe, test } from "node:test";
import { open, snapshot } from "./browser.mjs";

const bad = `version: 1
name: Bad House
floors:
  - {name: G, height_m: 0}
  - {name: "1", height_m: 1.0}
lift: {car_kilos: 900}
`;

const good = `version: 1
name: Two Floors
floors:
  - {name: G, height_m: 0}
  - {name: "1", height_m: 4}
`;

const file = (name, text) => ({ name, mimeType: "application/yaml", buffer: Buffer.from(text) });

describe("a building file", () => {
  let page;
  before(async () => { page = await open(); });
  after(async () => { assert.deepEqual(page.faults, []); await page.context().close(); });

  test("that is bad leaves the old machine running and lists every fault with its place", async () => {
    await page.evaluate(() => { wheelroom.call("3"); wheelroom.advance(4); });
    const before = await snapshot(page);
    await page.locator("#building-file").setInputFiles(file("bad.yaml", bad));
    const box = page.locator("#building-errors");
    await box.waitFor();
    assert.match(await box.textContent(), /bad\.yaml/);
    const places = await box.locator("li .where").allTextContents();
    assert.ok(places.length >= 2, places.join());
    assert.ok(places.every((place) => /line [3-6], column \d+/.test(place)), places.join());
    assert.deepEqual(await snapshot(page), before);
    assert.match(await page.locator("#building-name").textContent(), /Tidemill/);
    await page.evaluate(() => wheelroom.advance(1));
    assert.equal((await snapshot(page)).time_s, before.time_s + 1);
  });

  test("list closes by Escape and gives the focus back", async () => {
    await page.keyboard.press("Escape");
    assert.ok(await page.locator("#building-errors").isHidden());
    assert.equal(await page.evaluate(() => document.activeElement.id), "building-open");
  });

  test("that is good replaces the machine", async () => {
    await page.locator("#building-file").setInputFiles(file("good.yaml", good));
    await page.waitForFunction(() => document.querySelector("#building-name").textContent.startsWith("Two Floors"));
    assert.deepEqual(Object.keys((await snapshot(page)).calls).sort(), ["1", "G"]);
  });

  test("may be dropped on the page", async () => {
    await page.evaluate((text) => {
      const data = new DataTransfer();
      data.items.add(new File([text.replace("Two Floors", "Dropped House")], "drop.yaml"));
      for (const kind of ["dragenter", "dragover", "drop"]) document.body.dispatchEvent(new DragEvent(kind, { bubbles: true, cancelable: true, dataTransfer: data }));
    }, good);
    await page.waitForFunction(() => document.querySelector("#building-name").textContent.startsWith("Dropped House"));
    assert.ok(await page.locator("#drop").isHidden());
  });

  test("given to the page object as bad text is refused with its errors", async () => {
    const before = await snapshot(page);
    const error = await page.evaluate(async (text) => {
      try { await wheelroom.load(text); } catch (e) { return { message: e.message, errors: e.errors }; }
    }, bad);
    assert.ok(error.errors.length >= 2);
    assert.ok(error.errors.every((e) => e.line > 0 && e.column > 0 && e.text));
    assert.deepEqual(await snapshot(page), before);
    await page.locator("#building-errors-close").click();
  });

  test("that is no text at all is refused in words", async () => {
    await page.locator("#building-file").setInputFiles({ name: "x.yaml", mimeType: "application/yaml", buffer: Buffer.alloc(2_000_000, 1) });
    await page.locator("#building-errors").waitFor();
    assert.match(await page.locator("#building-errors").textContent(), /larger than 1 MB/);
  });
});
