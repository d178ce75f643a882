// Writing a lesson: form and text are one, the machine decides what is right,
// nothing is lost, and no file brings the page down.
import assert from "node:assert/strict";
import { after, before, describe, test } from "node:test";
import { open } from "./browser.mjs";

const file = (name, text) => ({ name, mimeType: "application/yaml", buffer: Buffer.from(text) });

describe("writing a lesson", () => {
  let page;
  const text = () => page.locator("#writer-yaml").inputValue();
  const sound = () => page.waitForFunction(() => document.querySelector("#writer-state").dataset.state === "sound");
  const field = (path) => page.locator(`[id="writer:${path}"]`);
  before(async () => { page = await open("#screen=lesson-writer"); await page.waitForSelector("#screen-lesson-writer[data-ready]"); });
  after(async () => { assert.deepEqual(page.faults, []); await page.context().close(); });

  test("begins with a blank one that works, and shows the machine's answer", async () => {
    await sound();
    assert.match(await page.locator(".writer-answer").textContent(), /At floor 5/);
    assert.ok(await page.locator("#writer-preview svg").isVisible());
    assert.equal(await page.locator('#writer-preview li[data-right="1"]').count(), 1);
  });

  test("takes the form into the text, and the text into the form", async () => {
    await field("items[0].question.text").fill("Where to, then?");
    await field("items[0].question.text").press("Tab");
    assert.match(await text(), /text: "Where to, then\?"/);
    await page.locator("#writer-yaml").fill((await text()).replace("My lesson", "Our lesson"));
    await page.waitForFunction(() => document.getElementById("writer:title").value === "Our lesson");
    await field("items[0].calls").fill("2@0.3");
    await field("items[0].calls").press("Tab");
    await page.waitForFunction(() => document.querySelector("#writer-state").dataset.state === "wrong");
    await page.locator('[data-do="undo"]').click();
    await sound();
  });

  test("says what is wrong at its line as one types", async () => {
    const was = await text();
    await page.locator("#writer-yaml").fill(was.replace("until: stops 5", "until: stopps 5"));
    await page.waitForSelector("#writer-yaml-faults li");
    const line = was.slice(0, was.indexOf("until: stops 5")).split("\n").length;
    assert.match(await page.locator("#writer-yaml-faults li").first().textContent(), new RegExp(`\\b${line}\\b`));
    assert.ok(await page.locator(".yaml-lines .wrong").count() > 0);
    assert.match(await field("items[0].segments[0].until").getAttribute("class"), /wrong/);
    await page.locator("#writer-yaml").fill(was);
    await sound();
  });

  test("loses nothing by a reload", async () => {
    const was = await text();
    await page.reload();
    await page.waitForSelector("#screen-lesson-writer[data-ready]");
    assert.equal(await text(), was);
  });

  test("begins with a lesson that ships, and comes back with Undo", async () => {
    const was = await text();
    await page.locator("#writer-from").selectOption("two-calls");
    await page.waitForFunction(() => document.querySelectorAll("#writer-items input").length === 5);
    assert.match(await text(), /^version: 1\nid: two-calls/);
    await page.locator('[data-do="undo"]').click();
    assert.equal(await text(), was);
  });

  test("is saved as a file and shared as an address", async () => {
    const [download] = await Promise.all([page.waitForEvent("download"), page.locator('[data-do="save"]').click()]);
    assert.equal(download.suggestedFilename(), "my-lesson.yaml");
    await page.locator('[data-do="share"]').click();
    const address = await page.locator("#writer-address-text").inputValue();
    const other = await open(address.slice(address.indexOf("#")));
    await other.waitForSelector("#screen-lesson-writer[data-ready]");
    assert.equal(await other.locator("#writer-yaml").inputValue(), await text());
    await other.context().close();
  });

  test("refuses hostile files in words, and stays up", async () => {
    const good = await text();
    const refused = async (name, content, said) => {
      await page.locator("#writer-file").setInputFiles(file(name, content));
      await page.waitForFunction(([s]) => (document.querySelector("#writer-note").textContent + document.querySelector("#writer-yaml-faults").textContent).match(new RegExp(s)), [said]);
    };
    await refused("large.yaml", good + "# remark\n".repeat(1_200_000), "larger than 1 MB");
    assert.equal(await text(), good, "what is too large is not taken up");
    await refused("script.yaml", good.replace("Where to, then?", "<script>globalThis.caught = 1</script><img src=x onerror=globalThis.caught=1>"), "script|HTML");
    await refused("ring.yaml", `a: &a [*b]\nb: &b [*a]\n${good}`, "[Aa]nchor|alias|&");
    assert.equal(await page.evaluate(() => globalThis.caught), undefined);
    assert.ok(await page.locator('[data-do="try"]').isDisabled());
    await page.locator("#writer-yaml").fill(good);
    await sound();
  });

  test("can be tried as it will be learnt", async () => {
    await page.locator('[data-do="try"]').click();
    await page.waitForFunction(() => document.querySelector("#lesson .lesson-count")?.textContent.includes("Our lesson"));
    await page.reload();
    await page.waitForSelector("#stage[data-ready]");
    await page.waitForFunction(() => document.querySelector("#lesson .lesson-count")?.textContent.includes("Our lesson"));
  });
});
