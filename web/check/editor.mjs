// The screen on which a building is set up, by keyboard and by pointer.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after, before, describe, test } from "node:test";
import axe from "axe-core";
import { base, open, snapshot } from "./browser.mjs";

const value = (page, path) => page.locator(`[data-path="${path}"]`);
const state = (page) => page.locator("#editor-state").getAttribute("data-state");
const becomes = (page, wanted) => page.locator(`#editor-state[data-state="${wanted}"]`).waitFor();
const yaml = (page) => page.locator("#editor-yaml").inputValue();
const shown = (page) => page.waitForSelector("#screen-building[data-ready]");

async function serious(page) {
  await page.evaluate(axe.source);
  const result = await page.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
  return result.violations.filter((v) => ["serious", "critical"].includes(v.impact)).map((v) => `${v.id}: ${v.nodes.map((n) => n.target).join(", ")}`);
}

describe("screens", () => {
  let page;
  before(async () => { page = await open(); });
  after(async () => { assert.deepEqual(page.faults, []); await page.context().close(); });

  test("open by the navigation, with title, focus and address, and close by the way back", async () => {
    await page.evaluate(() => { wheelroom.call("3"); wheelroom.run(); });
    await page.locator('#screens a[data-screen="building"]').focus();
    await page.keyboard.press("Enter");
    await shown(page);
    assert.match(await page.title(), /^Building/);
    assert.equal(await page.evaluate(() => document.activeElement.textContent), "Building");
    assert.equal(await page.evaluate(() => location.hash), "#screen=building");
    assert.ok(await page.locator("#stage").isHidden());
    const stood = (await snapshot(page)).time_s;
    await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
    assert.equal((await snapshot(page)).time_s, stood, "the machine waits");
    await page.goBack();
    await page.waitForFunction((t) => wheelroom.snapshot().time_s > t, stood);
    assert.ok(await page.locator("#stage").isVisible());
    assert.doesNotMatch(await page.title(), /^Building/);
    await page.evaluate(() => wheelroom.pause());
  });

  test("that do not exist are told so, and the machine is shown", async () => {
    await page.evaluate(() => { location.hash = "#screen=cellar"; });
    await page.locator("#notice", { hasText: "cellar" }).waitFor();
    assert.ok(await page.locator("#stage").isVisible());
  });

  test("are behind a button where there is little room", async () => {
    await page.setViewportSize({ width: 360, height: 740 });
    assert.ok(await page.locator("#screens").isHidden());
    await page.locator("#menu").click();
    assert.equal(await page.locator("#menu").getAttribute("aria-expanded"), "true");
    await page.keyboard.press("Escape");
    assert.ok(await page.locator("#screens").isHidden());
    assert.equal(await page.evaluate(() => document.activeElement.id), "menu");
  });
});

describe("the building editor", () => {
  let page;
  before(async () => { page = await open("#screen=building"); await shown(page); });
  after(async () => { assert.deepEqual(page.faults, []); await page.context().close(); });

  test("has every value of the reader, with its unit and limits", async () => {
    const schema = JSON.parse(await (await fetch(`${base}building.schema.json`)).text());
    const paths = Object.entries(schema.properties).flatMap(([key, p]) => (p.type === "object" ? Object.keys(p.properties).map((k) => `${key}.${k}`) : []));
    assert.ok(paths.length > 60);
    for (const path of paths) {
      if (path === "selector.joins" || path === "machine.handwheel") continue;
      assert.equal(await value(page, path).count(), 1, path);
    }
    assert.match(await page.locator("#value-lift-car-kg-range").textContent(), /100 to 5000 kg/);
  });

  test("changes the lift at once and keeps the run", async () => {
    await page.evaluate(() => { wheelroom.call("4"); wheelroom.advance(6); });
    const car = (await snapshot(page)).car.position_m;
    await value(page, "lift.car_kg").fill("1400");
    await page.keyboard.press("Tab");
    await page.locator("#editor-note", { hasText: "run again to 6.0 s" }).waitFor();
    const s = await snapshot(page);
    assert.equal(s.calls["4"], 1);
    assert.ok(Math.abs(s.time_s - 6) < 0.01);
    assert.notEqual(s.car.position_m, car);
  });

  test("says why a value is refused, and leaves the lift as it was", async () => {
    const before = await snapshot(page);
    await value(page, "lift.car_kg").fill("7");
    await page.keyboard.press("Tab");
    await becomes(page, "wrong");
    assert.match(await page.locator("#value-lift-car-kg-faults").textContent(), /at least 100 kg, because/);
    assert.equal(await value(page, "lift.car_kg").getAttribute("aria-invalid"), "true");
    assert.deepEqual(await snapshot(page), before);
    assert.ok(await page.locator("#editor-old").isVisible());
  });

  test("undoes and does again by keys and by buttons", async () => {
    await value(page, "lift.load_kg").focus();
    await page.keyboard.press("Control+z");
    await becomes(page, "sound");
    assert.equal(await value(page, "lift.car_kg").inputValue(), "1400");
    await page.keyboard.press("Control+z");
    assert.equal(await value(page, "lift.car_kg").inputValue(), "900");
    await page.keyboard.press("Control+y");
    assert.equal(await value(page, "lift.car_kg").inputValue(), "1400");
    await page.locator('[data-do="undo"]').click();
    assert.equal(await value(page, "lift.car_kg").inputValue(), "900");
    assert.ok(await page.locator('[data-do="undo"]').isDisabled());
  });

  test("offers the number that cures a warning", async () => {
    await value(page, "machine.handwheel_kg_m2").fill("2,4");
    await page.keyboard.press("Enter");
    await becomes(page, "warned");
    await page.locator("#value-selector-advance-m-faults .cure").click();
    await page.locator("#value-shaft-vane-half-m-faults .cure").click();
    await becomes(page, "sound");
    assert.equal(await value(page, "selector.advance_m").inputValue(), "1.67");
    await value(page, "machine.handwheel_kg_m2").focus();
    await page.keyboard.press("ArrowDown");
    assert.equal(await value(page, "machine.handwheel_kg_m2").inputValue(), "2.3");
    await value(page, "shaft.vane_half_m").fill("");
    await page.keyboard.press("Tab");
    await becomes(page, "warned");
    assert.equal(await value(page, "shaft.vane_half_m").inputValue(), "0.047", "cleared, it is the default again");
  });

  test("adds, renames, moves and removes floors by buttons", async () => {
    const names = () => page.locator(".floors input.words").evaluateAll((all) => all.map((input) => input.value));
    await page.getByRole("button", { name: "New", exact: true }).click();
    await becomes(page, "sound");
    assert.deepEqual(await names(), ["3", "2", "1", "G"]);
    await page.getByRole("button", { name: "Add a floor on top" }).click();
    assert.deepEqual(await names(), ["4", "3", "2", "1", "G"]);
    await page.getByRole("button", { name: "Move floor G up" }).focus();
    await page.keyboard.press("Enter");
    assert.deepEqual(await names(), ["4", "3", "2", "G", "1"]);
    assert.equal(await page.evaluate(() => document.activeElement.getAttribute("aria-label")), "Move floor G up", "the focus goes with its floor");
    await page.keyboard.press("Enter");
    await value(page, "floors[0].name").fill("B");
    await page.keyboard.press("Enter");
    await page.getByRole("button", { name: "Remove floor 3" }).click();
    assert.deepEqual(await names(), ["4", "G", "2", "B"]);
    assert.deepEqual(Object.keys((await snapshot(page)).calls).sort(), ["2", "4", "B", "G"]);
  });

  test("shows in text and form the same building, and errors at their lines", async () => {
    await page.locator("#editor-view label", { hasText: "Text" }).click();
    const before = await snapshot(page);
    await page.locator("#editor-yaml").fill(`${await yaml(page)}lift:\n  car_kilos: 3\n`);
    await becomes(page, "wrong");
    const line = (await yaml(page)).split("\n").findIndex((l) => l.includes("car_kilos")) + 1;
    assert.match(await page.locator(".yaml-marks .wrong").textContent(), /car_kilos: 3.*did you mean car_kg/);
    assert.equal(await page.locator(".yaml-lines .wrong").textContent(), `${line}\n`);
    await page.locator(".yaml-faults button.line").click();
    const caret = await page.locator("#editor-yaml").evaluate((area) => area.value.slice(area.selectionStart));
    assert.ok(caret.startsWith("car_kilos"));
    assert.deepEqual(await snapshot(page), before);
    await page.locator("#editor-yaml").fill((await yaml(page)).replace("car_kilos: 3", "car_kg: 1000"));
    await becomes(page, "sound");
    await page.locator("#editor-view label", { hasText: "Form" }).click();
    assert.equal(await value(page, "lift.car_kg").inputValue(), "1000");
  });

  test("cannot be changed by the form while the text is no YAML", async () => {
    await page.locator("#editor-view label", { hasText: "Text" }).click();
    const good = await yaml(page);
    await page.locator("#editor-yaml").fill("name: [");
    await becomes(page, "wrong");
    await page.locator("#editor-view label", { hasText: "Form" }).click();
    assert.ok(await value(page, "lift.car_kg").isDisabled());
    await page.locator("#editor-elsewhere button.line").click();
    assert.ok(await page.locator("#editor-yaml").isVisible());
    await page.locator("#editor-yaml").fill(good);
    await becomes(page, "sound");
  });

  test("loses nothing by a reload, half-wrong text and steps included", async () => {
    await page.locator("#editor-view label", { hasText: "Form" }).click();
    const good = await snapshot(page);
    await value(page, "lift.car_kg").fill("7");
    await page.keyboard.press("Tab");
    await becomes(page, "wrong");
    await page.reload();
    await shown(page);
    await becomes(page, "wrong");
    assert.equal(await value(page, "lift.car_kg").inputValue(), "7");
    assert.deepEqual(Object.keys((await snapshot(page)).calls), Object.keys(good.calls));
    await page.locator('[data-do="undo"]').click();
    await becomes(page, "sound");
    assert.equal(await value(page, "lift.car_kg").inputValue(), "1000");
  });

  test("saves a file, opens it again, also by dropping, and takes a wrong one up", async () => {
    const download = page.waitForEvent("download");
    await page.getByRole("button", { name: "Save", exact: true }).click();
    const file = await download;
    assert.match(file.suggestedFilename(), /^new-building\.yaml$/);
    const text = await readFile(await file.path(), "utf8");
    assert.equal(text, await yaml(page));
    await page.locator("#editor-file").setInputFiles({ name: "x.yaml", mimeType: "application/yaml", buffer: Buffer.from(text.replace("name: New building", "name: Mill")) });
    await page.waitForFunction(() => document.querySelector("#building-name").textContent.startsWith("Mill"));
    await page.evaluate(() => {
      const data = new DataTransfer();
      data.items.add(new File(["name: Dropped\nfloors: 3\n"], "drop.yaml"));
      for (const kind of ["dragenter", "dragover", "drop"]) document.body.dispatchEvent(new DragEvent(kind, { bubbles: true, cancelable: true, dataTransfer: data }));
    });
    await becomes(page, "wrong");
    assert.ok(await page.locator("#drop").isHidden());
    assert.match(await page.locator("#building-name").textContent(), /^Mill/);
    await page.keyboard.press("Control+z");
    await page.locator('[data-do="undo"]').click();
    await becomes(page, "sound");
  });

  test("takes up a building that is opened elsewhere", async () => {
    await page.locator("#building").selectOption("kestrel-court");
    await page.locator("#editor-note", { hasText: "Kestrel" }).waitFor();
    assert.match(await value(page, "name").inputValue(), /Kestrel/);
  });

  for (const theme of ["paper", "slate"]) {
    test(`is clean for axe in ${theme}, as form and as text, wrong and right`, async () => {
      await page.locator("#theme label", { hasText: theme === "paper" ? "Paper" : "Slate" }).click();
      await value(page, "lift.balance").fill("0.9");
      await page.keyboard.press("Tab");
      await value(page, "lift.car_kg").fill("7");
      await page.keyboard.press("Tab");
      await becomes(page, "wrong");
      assert.deepEqual(await serious(page), []);
      await page.locator("#editor-view label", { hasText: "Text" }).click();
      assert.deepEqual(await serious(page), []);
      await page.locator("#editor-view label", { hasText: "Form" }).click();
      await value(page, "lift.car_kg").fill("900");
      await value(page, "lift.balance").fill("");
      await page.keyboard.press("Tab");
    });
  }

  for (const width of [320, 768, 1280, 2560]) {
    test(`at ${width} px nothing is cut off and every target is large enough`, async () => {
      await page.setViewportSize({ width, height: 800 });
      await page.evaluate(() => { for (const d of document.querySelectorAll("details")) d.open = true; });
      assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), "no sideways scrolling");
      const odd = await page.evaluate(() => [...document.querySelectorAll("#screen-building button, #screen-building input:not([type=radio]), #screen-building select, #screen-building label, #screen-building summary")]
        .filter((e) => e.checkVisibility())
        .map((e) => [e.id || e.textContent.trim(), e.getBoundingClientRect(), e])
        .filter(([, r, e]) => r.right > innerWidth + 1 || (e.tagName !== "LABEL" && (r.width < 24 || r.height < 24)))
        .map(([name, r]) => `${name} ${Math.round(r.width)}x${Math.round(r.height)} to ${Math.round(r.right)}`));
      assert.deepEqual(odd, []);
    });
  }
});

describe("a building in an address", () => {
  test("comes back whole, and where copying is forbidden the address can be read", async () => {
    const page = await open("#screen=building");
    await shown(page);
    await value(page, "name").fill("Mill by the Öder");
    await page.keyboard.press("Tab");
    await becomes(page, "sound");
    const text = await yaml(page);
    await page.evaluate(() => Object.defineProperty(navigator, "clipboard", { value: undefined }));
    await page.getByRole("button", { name: "Copy address" }).click();
    await page.locator("#editor-address-text").waitFor();
    const address = await page.locator("#editor-address-text").inputValue();
    assert.ok(address.startsWith(base) && address.length < 2000, address);
    const other = await open(address.slice(base.length));
    await other.waitForFunction(() => document.querySelector("#building-name").textContent.startsWith("Mill by the Öder"));
    await other.locator('#screens a[data-screen="building"]').click();
    await shown(other);
    assert.equal(await yaml(other), text);
    assert.deepEqual([...page.faults, ...other.faults], []);
    await page.context().close();
    await other.context().close();
  });
});

test("without storage the editor works, and only a reload forgets", async () => {
  const page = await open("#screen=building", { before: (p) => p.addInitScript(() => {
    Object.defineProperty(globalThis, "localStorage", { get() { throw new DOMException("no", "SecurityError"); } });
  }) });
  await shown(page);
  await value(page, "lift.car_kg").fill("1000");
  await page.keyboard.press("Tab");
  await becomes(page, "sound");
  assert.equal(await state(page), "sound");
  assert.deepEqual(page.faults, []);
  await page.context().close();
});
