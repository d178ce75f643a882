// The circuit screen: asked, measured, tried, proved, taken away.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after, before, describe, test } from "node:test";
import axe from "axe-core";
import { open, snapshot } from "./browser.mjs";

const tool = (page, name) => page.locator("#circuit-tool label", { hasText: name }).click();
const shown = (page) => page.waitForSelector("#screen-circuit[data-ready]");

async function serious(page) {
  await page.evaluate(axe.source);
  const result = await page.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
  return result.violations.filter((v) => ["serious", "critical"].includes(v.impact)).map((v) => `${v.id}: ${v.nodes.map((n) => n.target).join(", ")}`);
}

/** Points at the middle of what bears a part's name in the drawing. */
async function point(page, part) {
  const mark = page.locator(`#circuit-drawing [data-part="${part}"]`).first();
  await mark.scrollIntoViewIfNeeded();
  const box = await mark.boundingBox();
  await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
}

describe("the circuit", () => {
  let page;
  before(async () => {
    page = await open("#screen=circuit");
    await shown(page);
    await page.evaluate(() => { wheelroom.call("4"); wheelroom.advance(4); });
    await page.locator("#circuit-drawing svg").waitFor();
  });
  after(async () => { assert.deepEqual(page.faults, []); await page.context().close(); });

  test("says why a relay is out, and leads on from blocker to blocker", async () => {
    await page.locator("#why-target").selectOption("relay.start");
    await page.locator("#why-answer .reason").first().waitFor();
    const first = await page.locator("#why-sentence").textContent();
    assert.match(first, /start relay is open|start relay/);
    assert.match(await page.locator("#why-reading").textContent(), /^Across it \d+\.\d V, through it \d+\.\d mA\.$/);
    await page.locator("#why-answer .reason button").first().focus();
    await page.keyboard.press("Enter");
    await page.waitForFunction((was) => document.querySelector("#why-sentence").textContent !== was, first);
    await page.locator("#why-back").click();
    assert.equal(await page.locator("#why-sentence").textContent(), first);
  });

  test("lights the way of the current in order", async () => {
    await page.evaluate(() => {
      globalThis.signs = [];
      const place = document.querySelector("#circuit-drawing");
      new MutationObserver(() => globalThis.signs.push([...place.querySelectorAll("text")].map((t) => t.textContent).filter((t) => /^[1-9]\d*$/.test(t)))).observe(place, { childList: true });
    });
    await page.locator("#why-target").selectOption("relay.up");
    await page.locator("#why-answer .badge.path").first().waitFor();
    const steps = await page.locator("#why-answer .badge.path").allTextContents();
    assert.ok(steps.length > 3);
    assert.deepEqual(steps, steps.map((_, i) => String(i + 1)));
    // Signs other than those of the way stand in every drawing.
    await page.waitForFunction((n) => new Set(globalThis.signs.map((s) => s.length)).size >= n, steps.length);
    const lengths = (await page.evaluate(() => globalThis.signs)).map((s) => s.length);
    assert.deepEqual(lengths, lengths.toSorted((a, b) => a - b), "one after another");
    await page.emulateMedia({ reducedMotion: "reduce" });
    await page.locator("#why-target").selectOption("");
    await page.evaluate(() => { globalThis.signs = []; });
    await page.locator("#why-target").selectOption("relay.up");
    await page.waitForFunction(() => globalThis.signs.length > 0);
    assert.deepEqual((await page.evaluate(() => globalThis.signs)).map((s) => s.length), [lengths.at(-1)], "all at once where nothing is to move");
    await page.emulateMedia({ reducedMotion: null });
  });

  test("is asked by pointing", async () => {
    await point(page, "leaf.0");
    await page.waitForFunction(() => /button|contact/.test(document.querySelector("#why-sentence").textContent));
  });

  test("steps on, and the answer follows", async () => {
    const before = (await snapshot(page)).time_s;
    await page.locator("#circuit-step").click();
    await page.waitForFunction((t) => wheelroom.snapshot().time_s > t, before);
    // The page is written with the next frame.
    await page.waitForFunction(() => document.querySelector("#circuit-clock").textContent === `${wheelroom.snapshot().time_s.toFixed(2)} s`);
  });

  test("has a voltmeter, by list and by pointing, its caution beside it", async () => {
    await tool(page, "Voltmeter");
    assert.match(await page.locator('[data-tool="meter"] .notice').textContent(), /live work/);
    await page.locator("#meter-first").selectOption({ label: "plus" });
    await page.locator("#meter-second").selectOption({ label: "minus" });
    const volts = () => page.locator("#meter-reading").textContent();
    assert.ok(Math.abs(parseFloat(await volts()) - 110) < 2, await volts()); // the supply of the building file
    // Before the lamp of the call that was made: its current, and that it is hot by now.
    await page.locator("#meter-first").selectOption({ label: "joint 22.1" });
    assert.match(await page.locator("#meter-between").textContent(), /call lamp 4 P: \d+\.\d mA, its filament hot/);
    await page.locator("#meter-away").click();
    const nodes = await page.evaluate(() => [...new Set([...document.querySelectorAll('#circuit-drawing [data-part^="node."]')].map((e) => e.dataset.part))].slice(0, 2));
    for (const node of nodes) await point(page, node);
    assert.match(await volts(), /-?\d+\.\d V/);
    assert.ok(await page.locator('[data-tool="meter"] .notice').isVisible());
  });

  test("tries a change on a copy and never bridges a guard", async () => {
    await tool(page, "What if");
    const before = await snapshot(page);
    await page.locator("#trial-what").selectOption("call:call.2");
    await page.locator("#trial-go").click();
    await page.locator("#trial-result table").first().waitFor();
    assert.match(await page.locator("#trial-result").textContent(), /first difference comes at/);
    const lock = await page.locator("#trial-what option").evaluateAll((all) => all.find((o) => /landing door/.test(o.textContent)).value);
    await page.locator("#trial-what").selectOption(lock);
    await page.locator("#trial-how label").nth(1).click();
    await page.locator("#trial-go").click();
    assert.match(await page.locator("#trial-result .refused").textContent(), /Not even here/);
    assert.deepEqual(await snapshot(page), before, "the lift stays as it is");
  });

  test("proves a scheme while the page goes on, and can be broken off", async () => {
    await tool(page, "Proof");
    const worker = page.waitForEvent("worker"); // off the main thread
    await page.locator("#proof-start").click();
    await worker;
    await page.locator("#proof-cancel").click();
    await page.locator("#proof-state", { hasText: "Broken off" }).waitFor();
    await page.locator("#proof-start").click();
    await page.locator("#circuit-floor").selectOption("3");
    await page.locator("#proof-state", { hasText: /^Proved/ }).waitFor({ timeout: 60_000 });
    assert.match(await page.locator("#proof-said").textContent(), /directional, 6 floors/);
  });

  test("offers all four schemes, direct as one never to be built, and opens the case that refutes it", async () => {
    const names = await page.locator("#circuit-scheme option").allTextContents();
    assert.equal(names.length, 4);
    await page.locator("#circuit-scheme").selectOption("direct");
    await page.locator("#circuit-limits.never", { hasText: "Never to be built" }).waitFor();
    await page.locator("#proof-start").click();
    await page.locator("#proof-open").click({ timeout: 60_000 });
    await page.locator("#stage").waitFor();
    await page.evaluate(() => wheelroom.advance(2));
    const { relays } = await snapshot(page);
    assert.ok(relays.up === 1 && relays.down === 1, "both directions at once");
    await page.goBack();
    await shown(page);
    await tool(page, "What if");
    await page.locator("#trial-go").click();
    assert.match(await page.locator("#trial-result .notice").first().textContent(), /^As it is.*Both directions/, "a trial says why a side ends");
    for (const scheme of ["interlocked", "two-button", "directional"]) {
      const was = await page.locator("#circuit-limits").textContent();
      await page.locator("#circuit-scheme").selectOption(scheme);
      await page.waitForFunction((w) => document.querySelector("#circuit-limits").textContent !== w, was);
    }
  });

  test("goes into files", async () => {
    await tool(page, "Files");
    for (const [name, has] of [["diagram", "A teaching model"], ["spice", ".op"], ["json", '"nodes"']]) {
      const download = page.waitForEvent("download");
      await page.locator(`[data-file="${name}"]`).click();
      assert.ok((await readFile(await (await download).path(), "utf8")).includes(has), name);
    }
  });

  for (const theme of ["Paper", "Slate"]) {
    test(`is clean for axe in ${theme}`, async () => {
      await page.locator("#theme label", { hasText: theme }).click();
      for (const name of ["Why", "Voltmeter", "What if", "Proof", "Files"]) {
        await tool(page, name);
        assert.deepEqual(await serious(page), [], name);
      }
    });
  }

  for (const width of [320, 768, 1280, 2560]) {
    test(`finds room at ${width} px`, async () => {
      await page.setViewportSize({ width, height: 800 });
      assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), "no sideways scrolling");
      for (const name of ["Why", "Voltmeter", "What if", "Proof", "Files"]) {
        await tool(page, name);
        const odd = await page.evaluate(() => [...document.querySelectorAll("#screen-circuit button, #screen-circuit select")]
          .filter((e) => e.checkVisibility()).map((e) => [e.id || e.textContent, e.getBoundingClientRect()])
          .filter(([, r]) => r.right > innerWidth + 1 || r.width < 24 || r.height < 24).map(([name]) => name));
        assert.deepEqual(odd, [], name);
      }
    });
  }
});
