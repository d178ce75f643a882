// The machine in the page: it starts, serves a call, says what it does, and
// what the tables show is the snapshot.
import assert from "node:assert/strict";
import { after, before, describe, test } from "node:test";
import { open, snapshot, until } from "./browser.mjs";

describe("the machine", () => {
  let page;
  before(async () => { page = await open(); });
  after(async () => { assert.deepEqual(page.faults, []); await page.context().close(); });

  test("starts at rest at the lowest floor with nothing registered", async () => {
    const s = await snapshot(page);
    assert.equal(s.time_s, 0);
    assert.equal(s.car.stop, "G");
    assert.equal(s.car.door, "closed");
    assert.deepEqual(Object.values(s.calls), [0, 0, 0, 0, 0, 0]);
    assert.equal(s.relays.safety, 1);
  });

  test("has a page object with the documented names", async () => {
    assert.deepEqual(await page.evaluate(() => Object.keys(wheelroom).sort()),
      ["advance", "call", "load", "pause", "ready", "reset", "run", "snapshot"]);
  });

  test("serves a call from a real button and cancels it", async () => {
    await page.locator('.call[data-floor="3"]').click();
    await until(page, (s) => s.calls["3"] === 1);
    assert.equal(await page.locator('.call[data-floor="3"]').getAttribute("aria-pressed"), "true");
    const s = await until(page, (s) => s.car.stop === "3" && s.calls["3"] === 0);
    assert.equal(s.lamps["3"], 1);
    assert.ok(Math.abs(s.car.position_m - 10.6) < 0.025, `levelled at ${s.car.position_m}`);
  });

  test("shows in the tables exactly what the snapshot says", async () => {
    await page.evaluate(() => { wheelroom.call("1"); wheelroom.advance(7.3); });
    const shown = await page.evaluate(() => Object.fromEntries(
      [...document.querySelectorAll("td[data-signal]")].map((td) => [td.dataset.signal, td.dataset.value])));
    const s = await snapshot(page);
    const want = { time_s: s.time_s, "car.position_m": s.car.position_m, "car.speed_m_s": s.car.speed_m_s, stop: s.car.stop, door: s.car.door, ...s.switches };
    for (const [name, value] of Object.entries(s.relays)) want[`relay.${name}`] = value;
    for (const [floor, value] of Object.entries(s.calls)) want[`call.${floor}`] = value;
    for (const [floor, value] of Object.entries(s.lamps)) want[`lamp.${floor}`] = value;
    assert.deepEqual(shown, Object.fromEntries(Object.entries(want).map(([key, value]) => [key, String(value)])));
  });

  test("runs and pauses by its button, and only then", async () => {
    const run = page.locator("#run");
    assert.equal(await run.textContent(), "Run");
    await run.click();
    await page.waitForFunction(() => document.querySelector("#run").textContent === "Pause");
    const before = (await snapshot(page)).time_s;
    await page.waitForFunction((t) => wheelroom.snapshot().time_s > t, before);
    await run.click();
    await page.waitForFunction(() => document.querySelector("#run").textContent === "Run");
    const s = await snapshot(page);
    await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
    assert.equal((await snapshot(page)).time_s, s.time_s);
  });

  test("steps to the next event and says it in a sentence of 15 words at most", async () => {
    await page.evaluate(() => { wheelroom.reset(); wheelroom.call("2"); });
    const said = [];
    const clock = () => page.frame({ url: /frame/ }).evaluate(() => JSON.parse(stage.clock()).value);
    for (let i = 0; i < 12; i++) {
      const before = await snapshot(page);
      await page.locator("#step").click();
      const after = await snapshot(page);
      assert.ok(after.time_s >= before.time_s);
      const signals = (s) => ({ ...s, time_s: 0, car: [s.car.stop, s.car.door] });
      assert.notDeepEqual(signals(after), signals(before), "a step changes a signal");
      said.push((await clock()).said);
    }
    for (const sentence of said) {
      assert.ok(sentence.split(" ").length <= 15, sentence);
      assert.doesNotMatch(sentence, /[⟦{]/);
    }
    assert.ok(new Set(said).size > 6, "the steps differ");
  });

  test("says at most one sentence a second, and ends with the newest", async () => {
    const spoken = await page.evaluate(async () => {
      const line = document.querySelector("#status");
      await new Promise((rest) => setTimeout(rest, 1100)); // whatever was said before has had its second
      const changes = [];
      const seen = new MutationObserver(() => { if (line.textContent) changes.push([performance.now(), line.textContent]); });
      seen.observe(line, { childList: true, characterData: true, subtree: true });
      wheelroom.reset();
      wheelroom.call("3");
      for (const start = performance.now(); performance.now() - start < 2500;) {
        wheelroom.advance(0.5);
        await new Promise((rest) => setTimeout(rest, 100));
      }
      const newest = () => JSON.parse(document.querySelector("#frame").contentWindow.stage.clock()).value.said;
      while (line.textContent !== newest()) await new Promise(requestAnimationFrame);
      seen.disconnect();
      return changes;
    });
    assert.ok(spoken.length >= 2);
    for (let i = 1; i < spoken.length; i++) assert.ok(spoken[i][0] - spoken[i - 1][0] > 950, `${spoken[i - 1]} then ${spoken[i]}`);
  });

  test("moves nothing on a phone when it begins to run, in either language", async () => {
    for (const folder of ["", "de/"]) {
      const phone = await open(folder, { viewport: { width: 390, height: 844 } });
      const places = () => phone.evaluate(() => ["#back", "#step", "#reset", "#scrub"].map((id) => { const { x, y } = document.querySelector(id).getBoundingClientRect(); return [x, y]; }));
      const was = await places();
      const word = await phone.locator("#run").textContent();
      await phone.evaluate(() => { wheelroom.call("3"); wheelroom.run(); });
      await phone.waitForFunction((w) => document.querySelector("#run").textContent !== w, word);
      assert.deepEqual(await places(), was);
      await phone.context().close();
    }
  });

  test("starts again from the beginning", async () => {
    await page.locator("#reset").click();
    await page.waitForFunction(() => wheelroom.snapshot().time_s === 0);
    assert.equal((await snapshot(page)).car.stop, "G");
  });

  test("has four speeds", async () => {
    for (const [label, speed] of [["¼", 0.25], ["4", 4], ["16", 16], ["1", 1]]) {
      await page.locator("#speed label", { hasText: new RegExp(`^\\s*${label}\\s*$`) }).click();
      const frame = page.frame({ url: /frame/ });
      assert.equal(JSON.parse(await frame.evaluate(() => stage.clock())).value.speed, speed);
    }
  });

  test("opens every building that ships", async () => {
    const ids = await page.locator("#building option").evaluateAll((all) => all.map((o) => [o.value, o.textContent]));
    assert.ok(ids.length >= 3);
    for (const [id, name] of ids.reverse()) {
      await page.locator("#building").selectOption(id);
      await page.waitForFunction((n) => document.querySelector("#building-name").textContent.startsWith(n), name);
      const floors = Object.keys((await snapshot(page)).calls).length;
      assert.equal(await page.locator(".call").count(), floors);
      await page.evaluate(() => { wheelroom.call(document.querySelector(".call").dataset.floor); });
      const top = await page.locator(".call").first().getAttribute("data-floor");
      await until(page, (s) => Object.values(s.calls).some((c) => c === 1));
      await page.evaluate(() => wheelroom.advance(90));
      assert.equal((await snapshot(page)).calls[top], 0, `${name} serves its highest floor`);
    }
  });

  test("is pointed at and called in the picture", async () => {
    await page.locator("#building").selectOption("tidemill-house");
    await page.waitForFunction(() => document.querySelector("#building-name").textContent.startsWith("Tidemill"));
    const frame = page.frame({ url: /frame/ });
    const stage = await page.locator("#stage").boundingBox();
    const middle = async (part) => {
      const { x0, y0, x1, y1 } = JSON.parse(await frame.evaluate((p) => window.stage.box(p), part)).value;
      return [stage.x + (x0 + x1) / 2, stage.y + (y0 + y1) / 2];
    };
    await page.mouse.move(...await middle("brush"));
    await page.waitForFunction(() => document.querySelector("#part").value === "brush");
    await page.mouse.click(...await middle("button.4"));
    await page.waitForFunction(() => document.querySelector("#part").value === "button.4");
    await until(page, (s) => s.calls["4"] === 1, 5);
  });

  test("tells of a chosen part its name, its state and what it does", async () => {
    await page.locator("#part").selectOption("relay.direction");
    await page.locator("#part-text", { hasText: /Direction relay: (in|out)/ }).waitFor();
    const texts = await page.frame({ url: /frame/ }).evaluate(() =>
      JSON.parse(stage.parts()).value.map(({ id }) => ({ id, ...JSON.parse(stage.describe(id)).value })));
    for (const { id, name, state, text } of texts) {
      for (const words of [name, state, text]) assert.ok(words && !/[⟦{]/.test(words), `${id}: ${words}`);
    }
  });
});
