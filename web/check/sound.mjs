// Sound: silent until it is asked for, each noise with its twin in words, and
// no noise from what is jumped over.
import assert from "node:assert/strict";
import { after, before, describe, test } from "node:test";
import { open } from "./browser.mjs";

/** Counts what is made and played, in place of listening. */
const counted = (page) => page.addInitScript(() => {
  globalThis.heard = { contexts: 0, played: 0 };
  const Context = AudioContext;
  globalThis.AudioContext = class extends Context { constructor(...args) { super(...args); heard.contexts += 1; } };
  const start = AudioBufferSourceNode.prototype.start;
  AudioBufferSourceNode.prototype.start = function (...args) { if (!this.loop) heard.played += 1; return start.apply(this, args); };
});
const heard = (page) => page.evaluate(() => ({ ...globalThis.heard }));

describe("sound", () => {
  let page;
  before(async () => { page = await open("", { before: counted }); });
  after(() => page.context().close());

  test("is off, and makes nothing, until the reader asks for it", async () => {
    assert.equal(await page.getAttribute("#sound", "aria-pressed"), "false");
    assert.equal(await page.isHidden("#noises"), true);
    await page.evaluate(() => { wheelroom.call("1"); wheelroom.run(); });
    await page.waitForFunction(() => wheelroom.snapshot().relays.up === 1);
    await page.evaluate(() => wheelroom.pause());
    assert.deepEqual(await heard(page), { contexts: 0, played: 0 });
  });

  test("every noise of a trip is played and shown in words", async () => {
    await page.evaluate(() => {
      globalThis.twins = new Set();
      new MutationObserver((list) => { for (const change of list) if (change.target.dataset.on) twins.add(change.target.dataset.part); })
        .observe(document.querySelector("#noises"), { subtree: true, attributes: true });
    });
    await page.click("#sound");
    await page.waitForSelector("#sound[aria-pressed=true]");
    assert.equal((await heard(page)).contexts, 1);
    assert.equal(await page.isVisible("#noises"), true);
    assert.deepEqual(await page.locator("#noises li").allTextContents(), ["relay", "contactor", "roller", "brake", "door"]);
    await page.evaluate(() => { wheelroom.reset(); wheelroom.call("1"); });
    await page.click("#speed input[value='16']", { force: true });
    await page.evaluate(() => wheelroom.run());
    await page.waitForFunction(() => globalThis.twins.size === 5);
    await page.evaluate(() => wheelroom.pause());
    assert.ok((await heard(page)).played >= 5);
  });

  test("what is slid over is silent", async () => {
    await page.waitForFunction(() => !document.querySelector("#noises [data-on]"));
    const { played } = await heard(page);
    await page.evaluate(() => { const scrub = document.querySelector("#scrub"); scrub.value = 2; scrub.dispatchEvent(new Event("input")); });
    await page.waitForSelector("#transport.looking");
    await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
    assert.equal((await heard(page)).played, played);
  });

  test("it goes off again, and leaves no fault", async () => {
    await page.click("#sound");
    await page.waitForSelector("#sound[aria-pressed=false]");
    assert.equal(await page.isHidden("#noises"), true);
    assert.deepEqual(page.faults, []);
  });
});

test("a browser that plays no sound says so, and loses nothing", async () => {
  const page = await open("", { before: (page) => page.addInitScript(() => { delete globalThis.AudioContext; }) });
  await page.click("#sound");
  await page.waitForSelector("#notice:not([hidden])");
  assert.equal(await page.getAttribute("#sound", "aria-pressed"), "false");
  assert.match(await page.textContent("#notice"), /plays no sound/);
  assert.deepEqual(page.faults, []);
  await page.context().close();
});
