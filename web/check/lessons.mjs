// The lessons as a learner goes through them: with the keyboard alone, in every
// kind of question, coming back on another day, with and without a memory.
import assert from "node:assert/strict";
import { readFile, writeFile, mkdtemp } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, describe, test } from "node:test";
import axe from "axe-core";
import { base, open, snapshot } from "./browser.mjs";

const inner = (page) => page.frame({ url: /frame/ });
const lesson = (page) => inner(page).evaluate(() => JSON.parse(stage.lesson()).value);
const hash = (page) => inner(page).evaluate(() => JSON.parse(stage.hash()).value);

/** Lets time pass; where the lesson has the machine stand still, nothing. */
const pass = (page, seconds = 300) => page.evaluate((s) => { try { wheelroom.advance(s); } catch { /* frozen */ } }, seconds);

/** What axe finds serious or critical. */
async function serious(page, inside = "body") {
  await page.evaluate(axe.source);
  const result = await page.evaluate((s) => window.axe.run(s, { resultTypes: ["violations"] }), inside);
  return result.violations.filter((v) => ["serious", "critical"].includes(v.impact)).map((v) => `${v.id}: ${v.nodes.map((n) => n.target).join(", ")}`);
}

/** Goes by Tab to the next place that fits, as a person without a pointer does. */
async function tabTo(page, selector, most = 60) {
  for (let i = 0; i < most; i++) {
    if (await page.evaluate((s) => document.activeElement?.matches(s) ?? false, selector)) return;
    await page.keyboard.press("Tab");
  }
  throw new Error(`Tab does not come to ${selector}`);
}

/** Gives some whole answer with the keys of its controls. */
async function answer(page) {
  const { kind, task } = await lesson(page);
  switch (kind) {
    case "order-stops":
      await tabTo(page, ".order-floor");
      await page.keyboard.press("Enter");
      break;
    case "set-switches":
      for (const floor of task.floors.toReversed()) {
        await tabTo(page, `.stand-row input[name$="-${floor.id}"]`);
        await page.keyboard.press("Space");
      }
      break;
    case "read-number":
      await tabTo(page, ".number");
      await page.keyboard.type("2.5");
      break;
    case "lamp-out":
      await tabTo(page, ".moment");
      for (let i = 0; i < 9; i++) await page.keyboard.press("ArrowRight");
      break;
    default:
      await tabTo(page, ".option input");
      await page.keyboard.press("Space");
  }
}

/** Presses a button of the lesson. */
async function press(page, deed) {
  await tabTo(page, `button[data-do="${deed}"]:enabled`);
  await page.keyboard.press("Enter");
}

/** Waits until the lesson stands where it should, letting time pass. */
async function until(page, ...states) {
  for (let i = 0; i < 40; i++) {
    const { state } = await lesson(page);
    if (states.includes(state)) {
      await page.waitForFunction((s) => document.querySelector("#lesson").dataset.state === s, state);
      return state;
    }
    await pass(page);
  }
  throw new Error(`not ${states}: ${(await lesson(page)).state}`);
}

/** From the first instant of an item to its explanation. */
async function through(page) {
  await until(page, "lead-in");
  await press(page, "run");
  let state = await until(page, "asked", "committed");
  if (state === "asked") {
    assert.equal(await page.locator(".options input:checked, .options [aria-pressed=true]").count(), 0, "nothing is chosen beforehand");
    assert.ok(await page.locator('button[data-do="commit"]').isDisabled());
    await answer(page);
    await press(page, "commit");
  }
  while ((state = await until(page, "committed", "paused", "observe", "explained")) !== "explained") {
    if (state === "observe") { await answer(page); await press(page, "observe"); } else await press(page, "continue");
  }
}

describe("a whole lesson by keyboard alone", () => {
  test("every item is answered, explained and left, and the review with them", async () => {
    const page = await open("#lesson=reading-the-ring&item=1");
    await page.locator("#lesson").evaluate((panel) => panel.querySelector("h2").focus());
    for (let items = 0; items < 12; items++) {
      await through(page);
      assert.ok((await page.locator(".explanation").textContent()).length > 40);
      assert.doesNotMatch(await page.locator("#lesson").textContent(), /[⟦{]/);
      assert.equal(await page.evaluate(() => document.activeElement?.id), "lesson-title", "the focus has come along");
      const { item, items: all, reviews } = await lesson(page);
      await press(page, "next");
      if (item === all + reviews) break;
    }
    assert.equal(await until(page, "done"), "done");
    await tabTo(page, 'a[href="#screen=lessons"]');
    await page.keyboard.press("Enter");
    await page.waitForSelector("#screen-lessons[data-ready]");
    assert.match(await page.locator(".lesson-card.finished").textContent(), /Reading the ring/);
    assert.deepEqual(page.faults, []);
    await page.context().close();
  });
});

describe("every kind of question", () => {
  const items = {
    "choose-one": "wheel-in-small&item=2", "choose-several": "reading-the-ring&item=2", "order-stops": "above-and-below&item=4",
    "set-switches": "direction-switches&item=2", "point-at-part": "one-call&item=3", "read-number": "odd-terminals&item=3",
    "lamp-out": "late-calls&item=5", "faulty-part": "doors-and-safety&item=5",
  };
  let page;
  before(async () => { page = await open(); });
  after(async () => { assert.deepEqual(page.faults, []); await page.context().close(); });

  /** Opens an item by its address. */
  const at = async (address) => {
    await page.evaluate((a) => { location.hash = `#lesson=${a}`; }, address);
    await page.waitForFunction((a) => location.hash === `#lesson=${a}` && document.querySelector("#lesson").dataset.state === "lead-in", address);
    await until(page, "asked");
  };

  for (const [kind, address] of Object.entries(items)) {
    test(`${kind} can be answered and has nothing serious against it`, async () => {
      await at(address);
      assert.equal((await lesson(page)).kind, kind);
      const frozen = await hash(page);
      assert.deepEqual(await serious(page, "#lesson"), []);
      await page.locator("#lesson-title").focus();
      await answer(page);
      await page.waitForFunction(() => !document.querySelector('button[data-do="commit"]').disabled);
      assert.equal(await hash(page), frozen, "an answer moves nothing");
      assert.ok((await lesson(page)).said);
    });
  }

  test("a part pointed at in the picture is the answer", async () => {
    await at("one-call&item=3");
    await inner(page).evaluate(() => stage.choose("relay.stop"));
    assert.equal((await lesson(page)).chosen, "", "resting on a part is no answer");
    await inner(page).evaluate(() => stage.press());
    await page.waitForFunction(() => document.querySelector('.parts input[value="relay.stop"]')?.checked);
    assert.equal((await lesson(page)).chosen, "relay.stop");
  });

  test("what is no number is said, and cannot be committed", async () => {
    await at("odd-terminals&item=3");
    await page.locator(".number").fill("2 m");
    assert.ok(await page.locator('button[data-do="commit"]').isDisabled());
    assert.equal(await page.locator(".number").getAttribute("aria-invalid"), "true");
    await page.locator(".number").fill("2,5");
    await page.waitForFunction(() => !document.querySelector('button[data-do="commit"]').disabled);
  });
});

describe("an address", () => {
  test("brings an item back exactly", async () => {
    const seen = [];
    for (let i = 0; i < 2; i++) {
      const page = await open("#lesson=last-call&item=3");
      const first = await hash(page);
      await until(page, "asked");
      seen.push([first, await hash(page), await snapshot(page), await page.locator("#lesson").innerText()]);
      await page.context().close();
    }
    assert.deepEqual(seen[0], seen[1]);
  });

  test("leads from one item to another and back", async () => {
    const page = await open("#lesson=last-call&item=3");
    await page.evaluate(() => { location.hash = "#lesson=handwheel&item=2"; });
    await page.waitForFunction(() => document.querySelector(".lesson-count")?.textContent.includes("handwheel"));
    await page.goBack();
    await page.waitForFunction(() => document.querySelector(".lesson-count")?.textContent.includes("item 3"));
    await page.context().close();
  });
});

describe("what a learner has done", () => {
  const day = (ago) => { const d = new Date(); d.setDate(d.getDate() - ago); return [d.getFullYear(), d.getMonth() + 1, d.getDate()].map((n) => String(n).padStart(2, "0")).join("-"); };
  const kept = JSON.stringify({ version: 1, lessons: [{ id: "wheel-in-small", answers: [{ item: 2, right: true, day: day(1) }], finished: day(1), reviews: [] }] });
  const keeping = (text) => (page) => page.addInitScript((t) => { if (!sessionStorage.getItem("set")) { sessionStorage.setItem("set", "1"); localStorage.setItem("progress", JSON.stringify(t)); } }, text);

  test("comes up for review the next day, beside the machine and among the lessons", async () => {
    const page = await open("", { before: keeping(kept) });
    const link = page.locator("#lesson-list a").first();
    assert.match(await link.textContent(), /Review: The wheel is the shaft in small/);
    await link.click();
    await page.waitForFunction(() => !document.querySelector("#lesson").hidden);
    assert.equal((await lesson(page)).review, 1);
    await page.evaluate(() => { location.hash = "#screen=lessons"; });
    await page.waitForSelector("#screen-lessons[data-ready]");
    assert.equal(await page.locator("#lessons-due-list li").count(), 1);
    assert.deepEqual(await serious(page), []);
    assert.deepEqual(page.faults, []);
    await page.context().close();
  });

  test("is written to a file, erased after a second question, and taken in again", async () => {
    const page = await open("#screen=lessons", { before: keeping(kept), ready: false });
    await page.waitForSelector("#screen-lessons[data-ready]", { timeout: 60_000 });
    const [download] = await Promise.all([page.waitForEvent("download"), page.locator("#progress-export").click()]);
    const file = join(await mkdtemp(join(tmpdir(), "progress-")), "progress.json");
    await download.saveAs(file);
    assert.equal(await readFile(file, "utf8"), kept);
    await page.locator("#progress-erase").click();
    await page.locator("#progress-keep").click();
    assert.equal(await page.locator(".lesson-card.finished").count(), 1);
    await page.locator("#progress-erase").click();
    await page.locator("#progress-really").click();
    assert.equal(await page.locator(".lesson-card.finished").count(), 0);
    assert.equal(await page.evaluate(() => localStorage.getItem("progress")), null);
    await page.locator("#progress-file").setInputFiles(file);
    await page.waitForSelector(".lesson-card.finished");
    await writeFile(file, "{}");
    await page.locator("#progress-file").setInputFiles(file);
    await page.waitForFunction(() => /no progress/.test(document.querySelector("#progress-note").textContent));
    assert.equal(await page.locator(".lesson-card.finished").count(), 1, "a bad file changes nothing");
    await page.context().close();
  });

  test("is forgotten where nothing may be kept, and nothing else is different", async () => {
    const page = await open("#lesson=wheel-in-small&item=2", {
      before: (p) => p.addInitScript(() => Object.defineProperty(window, "localStorage", { get() { throw new DOMException("forbidden", "SecurityError"); } })),
    });
    await page.locator("#lesson-title").focus();
    await through(page);
    await press(page, "next");
    assert.deepEqual(page.faults, []);
    await page.context().close();
  });

  test("does no harm when it has been damaged", async () => {
    const page = await open("", { before: keeping("{]") });
    assert.match(await page.locator("#lesson-list a").first().textContent(), /Begin/);
    assert.deepEqual(page.faults, []);
    await page.context().close();
  });
});

describe("the glossary", () => {
  test("has every word a lesson links to", async () => {
    const page = await open("#lesson=wheel-in-small&item=1");
    const links = await page.locator("a.term").evaluateAll((all) => all.map((a) => a.getAttribute("href")));
    assert.ok(links.length >= 3);
    await page.goto(`${base}glossary.html`);
    for (const link of links) assert.equal(await page.locator(link.slice(link.indexOf("#"))).count(), 1, link);
    assert.deepEqual(await serious(page), []);
    assert.ok(await page.locator(".glossary div").count() > 60);
    await page.context().close();
  });
});
