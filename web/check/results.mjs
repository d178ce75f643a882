// Results: what is noted of an item, how files of a class add up, and what a
// college's system is told by SCORM 1.2.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { after, before, describe, test } from "node:test";
import { open } from "./browser.mjs";

const state = (page) => page.frame({ url: /frame/ }).evaluate(() => JSON.parse(stage.lesson()).value?.state);
const lesson = (page, action, arg = "") => page.frame({ url: /frame/ }).evaluate(([a, b]) => JSON.parse(stage.lessonDo(a, b)), [action, arg]);

/** Answers the open item from its question to its explanation. */
async function answer(page, id, sure = "0") {
  for (let i = 0; i < 40 && (await state(page)) !== "explained"; i++) {
    switch (await state(page)) {
      case "asked": await page.waitForTimeout(0); await lesson(page, "choose", id); await lesson(page, "sure", sure); await lesson(page, "commit"); break;
      case "observe": await lesson(page, "observe", id); break;
      case "committed": case "paused": await lesson(page, "continue"); break;
      default: await page.evaluate(() => wheelroom.advance(60));
    }
    // The page looks once a frame, as it does when a reader is at it.
    await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))));
  }
  assert.equal(await state(page), "explained");
}

describe("results", () => {
  let page;
  before(async () => { page = await open("#lesson=two-calls&item=2"); });
  after(async () => { assert.deepEqual(page.faults, []); await page.context().close(); });

  test("note prediction, sureness, outcome, tries and time, under a code", async () => {
    await answer(page, "b", "3");
    await lesson(page, "open", "two-calls/2");
    await answer(page, "a", "1");
    await page.evaluate(() => { location.hash = "#screen=results"; });
    await page.waitForSelector("#results-own table");
    const cells = await page.locator("#results-own tbody tr").first().locator("td").allTextContents();
    assert.deepEqual(cells.slice(0, 7), ["two-calls", "2", "Floor 5, then floor 2", "guessing", "Floor 5, then floor 2", "yes", "2"]);
    assert.match(await page.locator("#screen-results").textContent(), /code [0-9a-f]{8}/);
  });

  test("are written as CSV", async () => {
    const [download] = await Promise.all([page.waitForEvent("download"), page.locator("#results-save").click()]);
    const lines = readFileSync(await download.path(), "utf8").split("\r\n");
    assert.equal(lines[0], "attempt,lesson,item,title,kind,prediction,said,sure,outcome,happened,right,seen,tries,seconds");
    assert.match(lines[1], /^[0-9a-f]{8},two-calls,2,Which call is answered first\?,choose-one,a,"Floor 5, then floor 2",1,a,"Floor 5, then floor 2",1,1,2,[\d.]+$/);
  });

  test("of a class are added up from many files, and other files are named", async () => {
    const head = "attempt,lesson,item,title,kind,prediction,said,sure,outcome,happened,right,seen,tries,seconds";
    const row = (code, chosen, said, sure, right) => ({ name: `${code}.csv`, mimeType: "text/csv",
      buffer: Buffer.from(`${head}\r\n${code},two-calls,2,Which?,choose-one,${chosen},"${said}",${sure},a,"Floor 5, then floor 2",${right},1,1,12\r\n`) });
    const files = [row("00000001", "a", "Floor 5, then floor 2", 2, 1), row("00000002", "b", "<b>Floor 2</b>, then floor 5", 3, 0), row("00000003", "b", "<b>Floor 2</b>, then floor 5", 1, 0)];
    await page.locator("#results-files").setInputFiles([...files, files[0], { name: "other.csv", mimeType: "text/csv", buffer: Buffer.from("a,b\n1,2\n") }]);
    await page.waitForSelector(".results-item");
    assert.match(await page.locator("#results-class-note").textContent(), /3 learners, 3 answers.*other\.csv/);
    const text = await page.locator(".results-item").textContent();
    assert.match(text, /1 of 3 came true/);
    assert.match(text, /1 was certain and surprised/);
    assert.deepEqual(await page.locator(".results-item li").evaluateAll((list) => list.map((li) => li.children[1].textContent)), ["2", "1"]);
    assert.equal(await page.locator(".results-item b").count(), 0, "what a file says is text");
  });
});

describe("a package for a college's system", () => {
  const root = new URL("../..", import.meta.url).pathname;
  const zip = `${root}web/check/out/scorm.zip`, folder = `${root}web/check/out/scorm`;
  /** The package is served from the folder by the same server, under another address. */
  let page, stored = "";
  const files = (path) => readFileSync(`${folder}/${path}`);

  before(() => {
    execFileSync("go", ["run", "./web/build", "--pack", zip, "--lesson", "two-calls"], { cwd: root });
    execFileSync("rm", ["-rf", folder]);
    execFileSync("unzip", ["-q", zip, "-d", folder]);
  });

  /** Opens the package in a frame of a page that has the system's API, or has none. */
  async function launch(system) {
    const types = { html: "text/html", js: "text/javascript", css: "text/css", wasm: "application/wasm", svg: "image/svg+xml", woff2: "font/woff2", json: "application/json" };
    const made = await open("", { ready: false, before: async (p) => {
      await p.route(/^http:\/\/lms\.test\//, (route) => {
        const path = new URL(route.request().url()).pathname.slice(1);
        if (path === "") return route.fulfill({ contentType: "text/html", body: '<!DOCTYPE html><html lang="en"><title>s</title><iframe id="sco" width="1200" height="700"></iframe></html>' });
        try { return route.fulfill({ contentType: types[path.split(".").pop()], body: files(path.replace(/^sco\//, "")) }); } catch { return route.fulfill({ status: 404 }); }
      });
    } });
    await made.goto("http://lms.test/");
    if (system) {
      await made.addScriptTag({ content: readFileSync(new URL("node_modules/scorm-again/dist/scorm12.min.js", import.meta.url), "utf8") });
      await made.evaluate((had) => {
        globalThis.API = new globalThis.Scorm12API({ autocommit: false, logLevel: 5 });
        if (had) globalThis.API.loadFromJSON(JSON.parse(had).cmi ?? JSON.parse(had));
      }, stored);
    }
    await made.evaluate(() => { document.getElementById("sco").src = "http://lms.test/sco/index.html"; });
    const frame = await (await made.waitForSelector("#sco")).contentFrame();
    await frame.waitForSelector("#stage[data-ready]", { timeout: 60_000 });
    made.sco = frame;
    return made;
  }
  const inside = (p) => p.frames().find((f) => f.url().endsWith("frame/frame.html"));
  const ask = (p, name, ...args) => inside(p).evaluate(([n, a]) => JSON.parse(stage[n](...a)).value, [name, args]);
  const value = (p, name) => p.evaluate((n) => globalThis.API.LMSGetValue(n), name);

  async function go(p, id) {
    for (let i = 0; i < 60; i++) {
      const { state: now, kind } = await ask(p, "lesson");
      if (now === "explained") break;
      if (now === "asked") { await ask(p, "lessonDo", "choose", id); await ask(p, "lessonDo", "sure", "2"); await ask(p, "lessonDo", "commit", ""); }
      else if (now === "observe") await ask(p, "lessonDo", "observe", id);
      else if (now === "committed" || now === "paused") await ask(p, "lessonDo", "continue", "");
      else await ask(p, "advance", 60);
      await p.sco.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))));
      assert.ok(kind);
    }
    assert.equal((await ask(p, "lesson")).state, "explained");
  }

  test("has a sound manifest, its policy in the pages, and no service worker", () => {
    execFileSync("xmllint", ["--noout", `${folder}/imsmanifest.xml`]);
    assert.match(String(files("index.html")), /http-equiv="Content-Security-Policy"/);
    assert.match(String(files("frame/frame.html")), /http-equiv="Content-Security-Policy"/);
    const listed = execFileSync("unzip", ["-Z1", zip], { encoding: "utf8" });
    assert.doesNotMatch(listed, /sw\.js|service-worker|\.br$|\.gz$/m);
  });

  test("reports status, score and each answer, and keeps where one was", async () => {
    page = await launch(true);
    assert.equal(await value(page, "cmi.core.lesson_status"), "incomplete");
    await go(page, "");              // the worked item
    await ask(page, "lessonDo", "next", "");
    await go(page, "a");
    assert.equal(await value(page, "cmi.interactions._count"), "1");
    // The elements of an answer may be written and not read; its own record tells.
    const told = await page.evaluate(() => JSON.parse(JSON.stringify(globalThis.API.cmi)).interactions["0"]);
    assert.deepEqual([told.id, told.student_response, told.result], ["two-calls_2", "a", "correct"]);
    assert.equal(await value(page, "cmi.core.score.raw"), "25", "one of four questions");
    await ask(page, "lessonDo", "next", "");
    await go(page, "a");
    assert.equal(await value(page, "cmi.core.score.raw"), "25", "the second prediction did not come true");
    const kept = await value(page, "cmi.suspend_data");
    assert.ok(kept.length <= 4096);
    stored = await page.evaluate(() => JSON.stringify({ cmi: globalThis.API.cmi }));
    assert.match(await value(page, "cmi.core.lesson_location"), /two-calls\/3/);
    assert.deepEqual(page.faults, []);
  });

  test("tells the system the end of the session", async () => {
    await page.evaluate(() => { document.getElementById("sco").src = "about:blank"; });
    await page.waitForFunction(() => globalThis.API.isTerminated());
    await page.context().close();
  });

  test("goes on where one was, and completes", async () => {
    page = await launch(true);
    const { id, item } = await ask(page, "lesson");
    assert.deepEqual([id, item], ["two-calls", 3]);
    for (const n of [4, 5]) { await ask(page, "lessonDo", "open", `two-calls/${n}`); await go(page, "b"); }
    assert.equal(await value(page, "cmi.core.lesson_status"), "completed");
    assert.deepEqual(page.faults, []);
    await page.context().close();
  });

  test("runs where there is no such system", async () => {
    page = await launch(false);
    await go(page, "");
    assert.deepEqual(page.faults, []);
    await page.context().close();
  });

  test("keeps no more than it may, whatever has been answered", async () => {
    const plain = await open("about.html", { ready: false });
    const lengths = await plain.evaluate(async () => {
      const { suspend, resume } = await import("/js/scorm.js");
      const list = Array.from({ length: 2000 }, (_, i) => ({ lesson: `a-rather-long-lesson-${i % 25}`, item: 1 + i % 9, right: i % 2, seen: 1, sure: 3, tries: 4 }));
      const text = suspend(list, "x/1");
      const few = suspend(list.slice(0, 5), "x/1");
      return [text.length, resume(text).list.length, JSON.stringify(resume(few).list) === JSON.stringify(list.slice(0, 5))];
    });
    assert.ok(lengths[0] <= 4096 && lengths[1] > 100, String(lengths));
    assert.ok(lengths[2]);
    await plain.context().close();
  });
});
