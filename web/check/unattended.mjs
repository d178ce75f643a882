// An exhibit that nobody looks after: left alone, cut off, broken, and back
// again by itself.
import assert from "node:assert/strict";
import { describe, test } from "node:test";
import { first, sound } from "../page/js/exhibit/settings.js";
import { answer, ask, at, begin, exhibit, reach, slot, staff } from "./visit.mjs";

const counts = async (page) => {
  await staff(page);
  const rows = await page.locator(".exhibit-counts tbody tr").evaluateAll((all) => all.map((r) => [...r.cells].map((c) => c.textContent).join(" ")));
  const hint = await page.locator(".exhibit-counts + .exhibit-hint").textContent();
  await page.getByRole("button", { name: "Close" }).click();
  return { rows, hint };
};

const lose = (page) => page.frame({ url: /frame/ }).evaluate(() => document.querySelector("canvas").getContext("webgl2").getExtension("WEBGL_lose_context").loseContext());
const quiet = (page) => { page.faults = page.faults.filter((fault) => !/CONTEXT_LOST|context lost/i.test(fault)); };

describe("left alone", () => {
  test("it asks, waits and goes back to its beginning; a touch keeps it", async () => {
    const page = await exhibit({ query: "&pace=16", kept: null });
    await begin(page);
    await reach(page, "asked");
    const card = page.locator("#exhibit-idle");
    await card.waitFor();
    assert.match(await card.textContent(), /Still there\?.*In \d+ seconds/s);
    // The touch that answers does nothing else, wherever it falls.
    const touched = await page.evaluate(() => performance.now());
    await page.locator(".exhibit-choices button").first().click({ force: true });
    await card.waitFor({ state: "hidden" });
    assert.equal(await at(page), "asked");
    await card.waitFor();
    const warned = await page.evaluate(() => performance.now());
    assert.ok((warned - touched) * 16 / 1000 >= 60, `asked after ${(warned - touched) * 16 / 1000} s of the exhibit`);
    await page.waitForSelector('#exhibit-panel[data-screen="attract"]');
    const waited = (await page.evaluate(() => performance.now()) - warned) * 16 / 1000;
    assert.ok(waited >= 20, `${waited} s of the exhibit`);
    assert.ok(await card.isHidden());
    assert.doesNotMatch(page.url(), /#./);
    await page.context().close();
  });

  test("the staff's settings are left as well", async () => {
    const page = await exhibit({ query: "&pace=16", kept: null });
    await staff(page);
    await page.locator("#exhibit-staff").waitFor({ state: "hidden", timeout: 60_000 });
    await page.context().close();
  });

  test("a changed clock means nothing", async () => {
    const page = await exhibit({ query: "", kept: null });
    await begin(page);
    await reach(page, "asked");
    await page.evaluate(async () => {
      const was = Date.now;
      for (const days of [400, -400]) {
        Date.now = () => was() + days * 86_400_000;
        for (let i = 0; i < 40; i++) await new Promise(requestAnimationFrame);
      }
    });
    assert.equal(await at(page), "asked");
    assert.ok(await page.locator("#exhibit-idle").isHidden());
    await page.context().close();
  });

  test("hidden for hours, it comes back clean", async () => {
    const page = await exhibit();
    await begin(page);
    await answer(page, 0);
    await page.evaluate(() => {
      const was = performance.now.bind(performance);
      performance.now = () => was() + 5 * 3_600_000;
      document.dispatchEvent(new Event("visibilitychange"));
    });
    assert.equal(await at(page), "attract");
    assert.ok(await page.locator("#exhibit-idle").isHidden(), "nobody is asked");
    await page.context().close();
  });
});

test("while nobody can see it, it is not taken for hung", async () => {
  const page = await exhibit();
  await begin(page);
  await reach(page, "asked");
  await page.evaluate(async () => {
    globalThis.same = true;
    let hidden = true;
    Object.defineProperty(document, "hidden", { get: () => hidden, configurable: true });
    const inner = document.querySelector("#frame").contentWindow;
    const drawn = [window, inner].map((w) => [w, w.requestAnimationFrame]);
    for (const [w] of drawn) w.requestAnimationFrame = () => 0; // no frames
    const was = performance.now.bind(performance);
    for (let s = 10; s <= 50; s += 10) { // past every patience
      performance.now = () => was() + 1000 * s;
      await new Promise((look) => setTimeout(look, 1100));
    }
    hidden = false;
    for (const [w, draw] of drawn) w.requestAnimationFrame = draw;
  });
  assert.ok(await page.evaluate(() => globalThis.same), "not loaded again");
  await page.context().close();
});

describe("what it keeps", () => {
  test("survives a write that was cut short", async () => {
    const page = await exhibit();
    for (let i = 0; i < 2; i++) {
      await begin(page);
      await answer(page, 0);
      await page.getByRole("button", { name: "Finish" }).click();
    }
    // Each visit writes twice: as it begins and as its scene ends.
    const cut = (slots, to) => page.evaluate(([names, length]) => {
      for (const name of names) localStorage.setItem(name, localStorage.getItem(name).slice(0, length));
    }, [slots, to]);
    const last = await page.evaluate(() => ["exhibit-0", "exhibit-1"].sort((a, b) => Number(localStorage.getItem(b).split(" ")[1]) - Number(localStorage.getItem(a).split(" ")[1]))[0]);
    await cut([last], -20);
    await page.reload();
    await page.waitForSelector("#stage[data-ready]");
    assert.deepEqual((await counts(page)).rows, ["Visits begun English 2", "Who is served first? English 1"], "all but the last write");
    await cut(["exhibit-0", "exhibit-1"], 30);
    await page.reload();
    await page.waitForSelector("#stage[data-ready]");
    assert.deepEqual((await counts(page)).rows, ["Nothing has been counted yet."]);
    await begin(page);
    assert.deepEqual((await counts(page)).rows, ["Visits begun English 1"], "and it goes on counting");
    assert.deepEqual(page.faults, []);
    await page.context().close();
  });

  for (const [name, broken] of [
    ["forbidden", () => { for (const store of ["localStorage", "sessionStorage"]) Object.defineProperty(globalThis, store, { get() { throw new DOMException("denied", "SecurityError"); } }); }],
    ["full", () => { Storage.prototype.setItem = () => { throw new DOMException("full", "QuotaExceededError"); }; }],
  ]) {
    test(`is kept in memory where storage is ${name}`, async () => {
      const page = await exhibit({ before: (p) => p.addInitScript(broken) });
      await begin(page);
      await answer(page, 0);
      const { rows, hint } = await counts(page);
      assert.deepEqual(rows, ["Visits begun English 1", "Who is served first? English 1"]);
      assert.match(hint, /keeps nothing/);
      assert.deepEqual(page.faults, []);
      await page.context().close();
    });
  }

  test("is made sound when it is not", async () => {
    const page = await exhibit({ kept: { settings: { inches: 4000, idleS: 5, warningS: "x", off: 7, theme: "pink", code: "12" }, counts: [{ what: "begun", scene: "", language: "en", count: -3 }, { what: "name" }, null] } });
    const { rows } = await counts(page);
    assert.deepEqual(rows, ["Nothing has been counted yet."]);
    await begin(page);
    assert.equal(await at(page), "lead");
    await page.context().close();
  });

  test("allows 60 to 90 seconds without a touch, and 20 at least to answer", () => {
    assert.ok(first.idleS >= 60 && first.idleS <= 90 && first.warningS >= 20);
    for (const bad of [undefined, null, 7, { inches: 4000, idleS: 5, warningS: "x", off: 7, theme: "pink", code: "12" }, { idleS: 59 }, { idleS: 91 }, { warningS: 19 }]) {
      assert.deepEqual(sound(bad), first);
    }
    assert.deepEqual([sound({ idleS: 60 }).idleS, sound({ idleS: 90 }).idleS, sound({ warningS: 20 }).warningS], [60, 90, 20]);
  });
});

describe("what breaks", () => {
  test("lost graphics come back with the scene as it stood", async () => {
    const page = await exhibit();
    await begin(page);
    await reach(page, "asked");
    const was = await page.evaluate(() => wheelroom.snapshot());
    // A touch while it is put back does nothing.
    await page.evaluate(() => document.querySelector("#frame").contentWindow.addEventListener("webglcontextlost", () => document.querySelector(".exhibit-choices button").click()));
    await lose(page);
    await page.waitForFunction(() => document.querySelector("#stage").dataset.losses === "1", undefined, { timeout: 60_000 });
    assert.deepEqual(await page.evaluate(() => wheelroom.snapshot()), was);
    assert.equal(await at(page), "asked");
    assert.equal((await ask(page, "lesson")).chosen, "");
    await answer(page, 1);
    quiet(page);
    assert.deepEqual(page.faults, []);
    await page.context().close();
  });

  test("lost more than three times in a minute, the page is loaded again", async () => {
    const page = await exhibit();
    await page.evaluate(() => { globalThis.mine = true; });
    for (let i = 1; i <= 4; i++) {
      const loaded = i === 4 ? page.waitForEvent("load", { timeout: 60_000 }) : null;
      await lose(page);
      if (loaded) await loaded;
      else await page.waitForFunction((n) => document.querySelector("#stage").dataset.losses === String(n), i, { timeout: 60_000 });
    }
    await page.waitForSelector("#stage[data-ready]", { timeout: 60_000 });
    assert.equal(await page.evaluate(() => globalThis.mine), undefined);
    await page.waitForSelector('#exhibit-panel[data-screen="attract"]');
    await page.context().close();
  });

  test("where graphics go on failing, the picture is drawn without", async () => {
    const page = await exhibit({ before: (p) => p.addInitScript(() => sessionStorage.setItem("exhibit-recovered", "3")) });
    await page.locator("#drawing svg").waitFor();
    assert.equal(await page.frame({ url: /frame/ }).evaluate(() => typeof stage.took), "undefined", "no frame is drawn");
    await begin(page);
    await answer(page, 0);
    assert.deepEqual(page.faults, []);
    await page.context().close();
  });

  for (const [name, hang] of [
    ["a machine that moves no more", () => { const was = stage.clock(); stage.clock = () => was; }],
    ["a program that answers no more", () => { for (const name of Object.keys(stage)) stage[name] = () => { throw new Error("gone"); }; }],
  ]) {
    test(`${name} is loaded again within ten seconds`, async () => {
      const page = await exhibit();
      await page.waitForFunction(() => wheelroom.snapshot().time_s > 0.1);
      // From the hang to the moment at which the page is left, by its own clock.
      await page.evaluate(() => {
        const hung = performance.now();
        addEventListener("pagehide", () => sessionStorage.setItem("after", String(performance.now() - hung)));
      });
      const loaded = page.waitForEvent("load", { timeout: 60_000 });
      await page.frame({ url: /frame/ }).evaluate(hang);
      await loaded;
      const waited = Number(await page.evaluate(() => sessionStorage.getItem("after")));
      assert.ok(waited > 1000 && waited <= 10_000, `${waited} ms`);
      await page.waitForSelector("#stage[data-ready]", { timeout: 60_000 });
      await page.waitForFunction(() => wheelroom.snapshot().time_s > 0.1);
      await page.context().close();
    });
  }

  test("a page that cannot be had is not loaded, but waited for", async () => {
    const page = await exhibit();
    let cut = true;
    await page.route((url) => url.pathname === "/", (route) => (cut ? route.abort() : route.continue()));
    const tried = page.waitForRequest((request) => new URL(request.url()).pathname === "/", { timeout: 60_000 });
    await page.frame({ url: /frame/ }).evaluate(() => { for (const name of Object.keys(stage)) stage[name] = () => { throw new Error("gone"); }; });
    await tried;
    assert.ok(await page.getByText("One moment, please.").isVisible());
    const loaded = page.waitForEvent("load", { timeout: 60_000 });
    cut = false;
    await loaded;
    await page.waitForSelector("#stage[data-ready]", { timeout: 60_000 });
    await page.context().close();
  });

  test("a kiosk's server is told that the page is alive, again and again", async () => {
    const heard = [];
    const page = await exhibit({ query: "&kiosk=1", before: (p) => p.route("**/alive", (route) => { heard.push(route.request().method()); return route.fulfill({ status: 204 }); }) });
    await page.waitForRequest("**/alive");
    assert.ok(heard.length >= 1);
    assert.ok(heard.every((method) => method === "POST"));
    await page.context().close();
    const other = await exhibit({ before: (p) => p.route("**/alive", (route) => { heard.push("none"); return route.abort(); }) });
    assert.ok(!heard.includes("none"), "only where there is one");
    await other.context().close();
  });
});

test("a slot of the tests is one of the exhibit's", async () => {
  const page = await exhibit({ kept: { settings: {}, counts: [{ what: "begun", scene: "", language: "en", count: 41 }] } });
  await begin(page);
  assert.deepEqual((await counts(page)).rows, ["Visits begun English 42"]);
  assert.match(slot(2, {})[0], /^exhibit-0$/);
  assert.equal(typeof (await ask(page, "clock")).time_s, "number");
  await page.context().close();
});
