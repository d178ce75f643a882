// Keyboard, names, contrast, sizes.
import assert from "node:assert/strict";
import { after, before, describe, test } from "node:test";
import { serious } from "./axe.mjs";
import { open, snapshot, until } from "./browser.mjs";

const focused = (page) => page.evaluate(() => document.activeElement?.id || document.activeElement?.dataset?.floor || document.activeElement?.getAttribute("href") || document.activeElement?.value || document.activeElement?.tagName);

describe("by keyboard alone", () => {
  let page;
  before(async () => { page = await open(); });
  after(async () => { assert.deepEqual(page.faults, []); await page.context().close(); });

  test("Tab reaches everything in order, goes into the picture and out again", async () => {
    const order = [];
    for (let i = 0; i < 60; i++) {
      await page.keyboard.press("Tab");
      const at = await focused(page);
      if (order.length && at === "BODY") break;
      order.push(at);
    }
    const want = ["skip", "building", "building-open", "about.html", "5", "G", "part", "frame", "run", "step", "reset"];
    let from = -1;
    for (const stop of want) {
      const next = order.indexOf(stop, from + 1);
      assert.ok(next > from, `${stop} comes after ${order[from]} in ${order.join(" ")}`);
      from = next;
    }
  });

  test("focus can be seen wherever it is", async () => {
    await page.locator("#run").focus();
    await page.keyboard.press("Tab");
    await page.keyboard.press("Shift+Tab");
    const outline = await page.evaluate(() => getComputedStyle(document.activeElement).outlineWidth);
    assert.equal(outline, "3px");
  });

  test("a lift is called and run with the keys of the page", async () => {
    await page.locator('.call[data-floor="1"]').focus();
    await page.keyboard.press("Enter");
    await until(page, (s) => s.calls["1"] === 1);
    await page.locator("#run").focus();
    await page.keyboard.press("Space");
    await page.waitForFunction(() => wheelroom.snapshot().car.stop === "-", undefined, { timeout: 20_000 });
    await page.keyboard.press("Space");
    await page.waitForFunction(() => document.querySelector("#run").textContent === "Run");
  });

  test("letters work in the picture and nowhere else", async () => {
    await page.evaluate(() => wheelroom.reset());
    await page.locator("#part").focus();
    await page.locator("#run").focus();
    await page.keyboard.press("s");
    assert.equal((await snapshot(page)).time_s, 0);
    await page.evaluate(() => wheelroom.call("2"));
    await page.locator("#frame").focus();
    await page.frame({ url: /frame/ }).locator("canvas").focus();
    await page.keyboard.press("s");
    await page.waitForFunction(() => wheelroom.snapshot().time_s > 0);
  });

  test("arrow keys go from part to part and the page tells of each", async () => {
    await page.frame({ url: /frame/ }).locator("canvas").focus();
    const seen = new Set();
    for (let i = 0; i < 4; i++) {
      const was = await page.locator("#part").inputValue();
      await page.keyboard.press("ArrowRight");
      await page.waitForFunction((w) => document.querySelector("#part").value !== w, was);
      seen.add(await page.locator("#part-text").textContent());
    }
    assert.equal(seen.size, 4);
    await page.keyboard.press("Escape");
    await page.waitForFunction(() => document.querySelector("#part").value === "");
  });
});

describe("access", () => {
  for (const theme of ["paper", "slate"]) {
    test(`axe finds nothing serious in ${theme}`, async () => {
      const page = await open("", { colorScheme: theme === "slate" ? "dark" : "light" });
      assert.equal(await page.evaluate(() => document.documentElement.dataset.theme), theme);
      assert.deepEqual(await serious(page), []);
      await page.goto(new URL("about.html", page.url()).href);
      assert.deepEqual(await serious(page), []);
      await page.context().close();
    });
  }

  test("axe finds nothing serious in a lesson or beside a bad file", async () => {
    const page = await open("#lesson=two-calls&item=2");
    await page.evaluate(() => wheelroom.advance(60));
    assert.deepEqual(await serious(page), []);
    await page.evaluate(() => { try { wheelroom.load("floors: 1"); } catch { /* shown in the page */ } });
    assert.deepEqual(await serious(page), []);
    await page.context().close();
  });

  for (const width of [320, 360, 768, 1280, 2560]) {
    test(`at ${width} px nothing is cut off and every target is large enough`, async () => {
      const page = await open("", { viewport: { width, height: 800 } });
      assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), "no sideways scrolling");
      const small = await page.evaluate(() => [...document.querySelectorAll("button, select, .segments label, a.about, .call, .foot a")]
        .filter((e) => e.offsetParent !== null)
        .map((e) => [e.id || e.textContent.trim(), e.getBoundingClientRect()])
        .filter(([name, r]) => r.width > 0 && (r.width < 24 || r.height < 24) && name)
        .map(([name, r]) => `${name} ${r.width}x${r.height}`));
      assert.deepEqual(small, []);
      const cut = await page.evaluate(() => [...document.querySelectorAll("button, .segments span, h1, h2")]
        .filter((e) => e.offsetParent !== null && e.scrollWidth > e.clientWidth + 1 && !e.classList.contains("unseen"))
        .map((e) => e.id || e.textContent.trim()));
      assert.deepEqual(cut, []);
      await page.context().close();
    });
  }

  test("the theme is remembered", async () => {
    const page = await open();
    await page.locator("#theme label", { hasText: "Slate" }).click();
    await page.reload();
    assert.equal(await page.evaluate(() => document.documentElement.dataset.theme), "slate");
    assert.ok(await page.locator('#theme input[value="slate"]').isChecked());
    await page.context().close();
  });

  test("a small screen shows one picture at a time with a switch", async () => {
    const page = await open("", { viewport: { width: 390, height: 800 } });
    for (const name of ["Wheel", "Circuit", "Chart", "Shaft"]) {
      await page.locator("#view label", { hasText: name }).click();
      const parts = await page.frame({ url: /frame/ }).evaluate(() => JSON.parse(stage.parts()).value.map((p) => p.id));
      assert.equal(parts.includes("brush"), name === "Wheel", `${name}: ${parts.length} parts`);
      assert.equal(parts.includes("car"), name === "Shaft", `${name}: ${parts.length} parts`);
    }
    assert.deepEqual(page.faults, []);
    await page.context().close();
  });
});
