// The languages beside English: every page in each, nothing left in English,
// the way from one to the other, and a layout that holds with longer texts.
import assert from "node:assert/strict";
import { readFileSync, readdirSync } from "node:fs";
import { after, before, describe, test } from "node:test";
import { serious } from "./axe.mjs";
import { large, lengthened, open, serve, snapshot } from "./browser.mjs";
import { flaws } from "./layout.mjs";
import { answer as visit, begin, exhibit, reach } from "./visit.mjs";

const root = new URL("../..", import.meta.url).pathname;
/** English texts of four words and more, cut at their slots, as long as anybody would see them. */
const english = readdirSync(`${root}assets/words/en`).flatMap((name) =>
  [...readFileSync(`${root}assets/words/en/${name}`, "utf8").matchAll(/^[a-z0-9.-]+: "((?:[^"\\]|\\.)*)"$/gm)]
    .flatMap(([, text]) => text.replace(/\\"/g, '"').split(/\{[a-z0-9-]+\}/))
    .map((text) => text.trim().replace(/\s+/g, " "))
    .filter((text) => text.split(" ").length >= 4 && /[a-z]{3}/.test(text)));

const state = (page) => page.frame({ url: /frame/ }).evaluate(() => JSON.parse(stage.lesson()).value?.state);
const names = (page) => page.locator("#screens a[data-screen]").evaluateAll((all) => all.map((a) => a.dataset.screen));

async function go(page, name) {
  await page.evaluate((n) => { location.hash = n === "machine" ? "" : `screen=${n}`; }, name);
  await page.waitForFunction((n) => (n === "machine" ? !document.querySelector("#machine").hidden : document.querySelector(`#screen-${n}`)?.dataset.ready && !document.querySelector("#room").hidden), name);
}

/** Goes through the views of the screen that is open, one after another. */
async function* views(page) {
  const radios = page.locator("#room .segments input");
  for (let i = 0; i < await radios.count(); i++) {
    if (!await radios.nth(i).isVisible()) continue;
    await radios.nth(i).check({ force: true });
    await page.waitForFunction(() => !document.querySelector("#drive-busy:not([hidden])"), undefined, { timeout: 60_000 });
    yield await radios.nth(i).evaluate((input) => `${input.name} ${input.value}`);
  }
}

/** What can be read on a page: its texts, and the names of what has none. */
const readable = (page) => page.evaluate(() => {
  const labels = [...document.querySelectorAll("[aria-label], [title], [alt], [placeholder]")].filter((e) => e.checkVisibility())
    .flatMap((e) => ["aria-label", "title", "alt", "placeholder"].map((name) => e.getAttribute(name) ?? ""));
  return [document.body.innerText, document.title, ...labels].join("\n").replace(/\s+/g, " ");
});

/** Takes the lesson that is open through its question, with the first answer. */
async function answer(page) {
  await page.evaluate(() => wheelroom.advance(60));
  assert.equal(await state(page), "asked");
  await page.locator(".option").first().click();
  await page.locator('button[data-do="commit"]').click();
  for (let i = 0; i < 12 && (await state(page)) !== "observe"; i++) {
    if ((await state(page)) === "paused") await page.locator('button[data-do="continue"]').click();
    await page.evaluate(() => wheelroom.advance(120));
  }
  await page.locator(".option").first().click();
  await page.locator('button[data-do="observe"]').click();
  await page.locator(".explanation").waitFor();
}

describe("in German", () => {
  let page;
  before(async () => { page = await open("de/#lesson=two-calls&item=2"); });
  after(async () => { assert.deepEqual(page.faults, []); await page.context().close(); });

  test("page and frame say which language they are in", async () => {
    assert.equal(await page.evaluate(() => document.documentElement.lang), "de");
    const frame = page.frame({ url: /frame/ });
    assert.equal(await frame.evaluate(() => document.documentElement.lang), "de");
    assert.equal(await frame.evaluate(() => stage.language), "de");
    for (const [lang, href] of await page.locator('link[rel="alternate"]').evaluateAll((all) => all.map((a) => [a.hreflang, a.href]))) {
      const text = await (await page.request.get(href)).text();
      assert.match(text, new RegExp(`<html lang="${lang}"`), href);
    }
  });

  test("a lesson is told, run and explained", async () => {
    assert.match(await page.locator("#lesson-title").textContent(), /Ruf/);
    await answer(page);
    const text = await page.locator("#lesson").innerText();
    assert.match(text, /Ihre Voraussage/);
    assert.match(text, /\d,\d/, "decimals have a comma");
    assert.doesNotMatch(text, /\d\.\d/);
  });

  test("days are written in words", async () => {
    const day = await page.evaluate(async () => (await import(new URL("../js/words.js", location.href).href)).date("2026-05-03"));
    assert.equal(day, "3. Mai 2026");
  });

  test("nothing on any screen is English, and no word is missing", async () => {
    for (const name of ["lesson", ...await names(page)]) {
      if (name !== "lesson") await go(page, name);
      const spoken = async (where) => {
        const text = await readable(page);
        assert.ok(text.length > 300, where);
        assert.doesNotMatch(text, /⟦/, where);
        assert.deepEqual(english.filter((sentence) => text.includes(sentence)), [], where);
      };
      await spoken(name);
      if (name !== "lesson" && name !== "machine") for await (const view of views(page)) await spoken(`${name}, ${view}`);
    }
    await page.evaluate(() => { location.hash = ""; });
    const parts = await page.frame({ url: /frame/ }).evaluate(() => {
      const read = (reply) => JSON.parse(reply).value;
      return read(stage.parts()).map(({ id }) => JSON.stringify(read(stage.describe(id)))).join("\n");
    });
    assert.doesNotMatch(parts, /⟦/);
    assert.deepEqual(english.filter((sentence) => parts.includes(sentence)), []);
  });
});

test("figures in a form are written and read with a comma", async () => {
  const page = await open("de/#screen=building");
  await page.waitForSelector("#screen-building[data-ready]");
  const height = page.locator('[data-path="floors[1].height_m"]');
  assert.equal(await height.inputValue(), "4,2");
  await height.fill("4,35");
  await height.press("Enter");
  await page.waitForFunction(() => document.querySelector("#editor-yaml").value.includes("height_m: 4.35"));
  await height.press("ArrowDown");
  assert.equal(await height.inputValue(), "4,34");
  await page.waitForFunction(() => document.querySelector("#editor-yaml").value.includes("height_m: 4.34"));
  assert.deepEqual(page.faults, []);
  await page.context().close();
});

test("the other pages are German, and accessible", async () => {
  const page = await open("de/about.html", { ready: false });
  for (const name of ["about.html", "glossary.html", "index.html"]) {
    await page.goto(new URL(name, page.url()).href);
    assert.equal(await page.evaluate(() => document.documentElement.lang), "de");
    const text = await readable(page);
    assert.match(text, /Übersetzung/, `${name} tells that it is a translation`);
    assert.deepEqual(english.filter((sentence) => text.includes(sentence)), [], name);
    assert.deepEqual(await serious(page), [], name);
  }
  assert.deepEqual(page.faults, []);
  await page.context().close();
});

describe("from one language to the other", () => {
  const choose = async (page, name) => {
    await page.locator("#languages a", { hasText: name }).click();
    await page.waitForSelector("#stage[data-ready]", { state: "attached", timeout: 60_000 });
  };

  test("each is named in its own, and the one that is spoken is marked", async () => {
    const page = await open("about.html", { ready: false });
    const list = await page.locator("#languages a").evaluateAll((all) => all.map((a) => [a.textContent, a.lang, a.getAttribute("aria-current")]));
    assert.deepEqual(list, [["English", "en", "true"], ["Deutsch", "de", null]]);
    await page.context().close();
  });

  test("screen and address are kept", async () => {
    const page = await open("?view=alone#screen=ring&part=match");
    await page.waitForSelector("#screen-ring[data-ready]");
    await choose(page, "Deutsch");
    await page.waitForSelector("#screen-ring[data-ready]");
    assert.match(page.url(), /\/de\/(?:index\.html)?\?view=alone#screen=ring&part=match$/);
    await choose(page, "English");
    assert.match(page.url(), /^[^?]*(?<!de)\/(?:index\.html)?\?view=alone#screen=ring&part=match$/);
    assert.deepEqual(page.faults, []);
    await page.context().close();
  });

  test("a run goes on from where it was", async () => {
    const page = await open();
    await page.evaluate(() => { wheelroom.call("3"); wheelroom.advance(6.5); });
    const was = await snapshot(page);
    await choose(page, "Deutsch");
    assert.deepEqual(await snapshot(page), was);
    await page.reload();
    await page.waitForSelector("#stage[data-ready]", { state: "attached", timeout: 60_000 });
    assert.equal((await snapshot(page)).time_s, 0, "an address opened by itself shows what it says");
    assert.deepEqual(page.faults, []);
    await page.context().close();
  });

  test("a question stays open, with the answer that was chosen", async () => {
    const page = await open("#lesson=two-calls&item=2");
    await page.evaluate(() => wheelroom.advance(60));
    await page.locator(".option").nth(1).click();
    await choose(page, "Deutsch");
    assert.equal(await state(page), "asked");
    assert.ok(await page.locator(".option input").nth(1).isChecked());
    assert.match(page.url(), /#lesson=two-calls&item=2$/);
    await page.context().close();
  });

  test("a word of the glossary is the same word", async () => {
    const page = await open("glossary.html#brush", { ready: false });
    await page.locator("#languages a", { hasText: "Deutsch" }).click();
    await page.waitForURL(/de\/glossary\.html#brush$/);
    assert.match(await page.locator("div:target, div:has(:target)").locator("dt").textContent(), /Bürste/);
    await page.locator("#languages a", { hasText: "English" }).click();
    await page.waitForURL(/glossary\.html#brush$/);
    assert.equal(await page.locator("div:target dt").textContent(), "brush");
    await page.context().close();
  });

  test("words that do not arrive leave the machine in English, and that is said", async () => {
    const page = await open("de/", { before: (p) => p.route("**/program.json", (route) => route.abort()) });
    assert.match(await page.locator("#notice").textContent(), /auf Englisch/);
    assert.equal(await page.frame({ url: /frame/ }).evaluate(() => stage.language), "en");
    assert.equal((await snapshot(page)).time_s, 0);
    await page.context().close();
  });
});

// WCAG 2.2, 1.4.10 for 320 px; the others are a laptop and a phone.
const sizes = [[320, 800], [1280, 720], ...(large ? [[390, 844]] : [])];

describe("the layout holds", () => {
  let server;
  before(async () => { server = await serve(lengthened.site); });
  after(() => server.stop());

  test("and what does not hold would be found", async () => {
    const page = await open("about.html", { ready: false });
    assert.deepEqual(await flaws(page), []);
    const spoil = (text, style) => page.evaluate(([t, s]) => {
      const p = document.createElement("p");
      p.textContent = t;
      p.className = "spoilt";
      Object.assign(p.style, s);
      document.querySelector("main").prepend(p);
    }, [text, style]);
    const mend = () => page.evaluate(() => { for (const p of document.querySelectorAll(".spoilt")) p.remove(); });
    for (const [what, text, style] of [
      [/is cut off by p/, "Richtungsrelais", { width: "3rem", overflow: "hidden", overflowWrap: "normal" }],
      [/leaves p/, "Richtungsrelais", { width: "3rem", overflowWrap: "normal" }],
      [/lie on one another/, "Richtungsrelais", { position: "absolute", top: "0", left: "1rem" }],
      [/the page is \d+ wide/, "Richtungsrelais", { width: "2000px" }],
    ]) {
      await spoil(text, style);
      if (String(what).includes("another")) await spoil(text, style);
      assert.match((await flaws(page)).join("\n"), what);
      await mend();
    }
    await page.context().close();
  });

  for (const tongue of ["de", "lengthened"]) {
    test(`${tongue}, in a lecture and at an exhibition`, async () => {
      const folder = tongue === "de" ? "de/" : server.address + lengthened.folder;
      const hall = await open(`${folder}?view=lecture#lesson=two-calls&item=2`);
      assert.deepEqual(await flaws(hall), [], "a lecture");
      await hall.context().close();
      const page = await exhibit({ folder });
      assert.deepEqual(await flaws(page), [], "untouched");
      await begin(page);
      await reach(page, "asked");
      assert.deepEqual(await flaws(page), [], "a question");
      await visit(page, 0);
      assert.deepEqual(await flaws(page), [], "an answer");
      assert.deepEqual(page.faults, []);
      await page.context().close();
    });
    for (const [width, height] of sizes) {
      test(`${tongue}, ${width} × ${height}: nothing is cut off, hidden or touched, and nothing scrolls sideways`, async () => {
        const base = tongue === "de" ? "de/" : server.address + lengthened.folder;
        const page = await open(base, { viewport: { width, height } });
        for (const name of await names(page)) {
          await go(page, name);
          assert.deepEqual(await flaws(page), [], name);
          for await (const view of views(page)) assert.deepEqual(await flaws(page), [], `${name}, ${view}`);
        }
        await page.evaluate(() => { location.hash = "lesson=two-calls&item=2"; });
        await page.locator("#lesson-title").waitFor();
        assert.deepEqual(await flaws(page), [], "a lesson begins");
        await answer(page);
        assert.deepEqual(await flaws(page), [], "a lesson explains");
        for (const name of ["about.html", "glossary.html"]) {
          await page.goto(new URL(name, page.url()).href);
          assert.deepEqual(await flaws(page), [], name);
        }
        assert.deepEqual(page.faults, []);
        await page.context().close();
      });
    }
  }
});
