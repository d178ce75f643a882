// The screen of the drive, by keyboard and by pointer: what its sentence says
// is what its table says, and what is taken away is whole.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after, before, describe, test } from "node:test";
import { serious } from "./axe.mjs";
import { open, snapshot } from "./browser.mjs";

/** Opens the screen and waits until it has measured. */
async function turn(page, address) {
  await page.evaluate((to) => { location.hash = to; }, address);
  await page.waitForSelector("#screen-drive[data-ready]");
  await measured(page);
}
const measured = (page) => page.waitForFunction(() => !document.querySelector("#screen-drive").hasAttribute("aria-busy") && document.querySelector("#drive-busy").hidden);
const cell = (page, key, column) => page.locator(`#drive-both [data-key="${key}"] td`).nth(column).textContent();

/** Changes something and waits until what follows from it is shown. */
async function changes(page, deed) {
  const was = await page.locator("#drive-both tbody").textContent();
  await deed();
  await page.waitForFunction((text) => document.querySelector("#drive-both tbody").textContent !== text, was);
  await measured(page);
}

async function taken(page, deed) {
  const [download] = await Promise.all([page.waitForEvent("download"), deed()]);
  return { name: download.suggestedFilename(), text: await readFile(await download.path(), "utf8") };
}

describe("the drive", () => {
  let page;
  before(async () => { page = await open(); });
  after(async () => { assert.deepEqual(page.faults, []); await page.context().close(); });

  test("compares two wheels in the numbers of this run", async () => {
    await turn(page, "#screen=drive");
    const said = await page.locator("#drive-say").textContent();
    for (const [key, unit] of [["change-jerk", / m\/s³/], ["trip-time", / s/], ["handwheel-energy", / kJ/], ["rotor-heat", / kJ/]]) {
      for (const column of [0, 1]) {
        const figure = (await cell(page, key, column)).replace(unit, "");
        assert.ok(said.includes(figure), `${key}: ${figure} in ${said}`);
      }
    }
    for (const column of [0, 1]) {
      const metres = Number((await cell(page, "slow-down-distance", column)).replace(" m", ""));
      assert.ok(said.includes(`${metres.toFixed(2)} m`), `${metres} in ${said}`);
    }
    const jolt = async (column) => parseFloat(await cell(page, "change-jerk", column));
    assert.ok(await jolt(1) < await jolt(0));
  });

  test("measures again when a slider is moved, or a figure typed", async () => {
    const slider = page.locator('[data-dial="heavy"] input[type="range"]');
    await slider.focus();
    await changes(page, () => page.keyboard.press("ArrowRight"));
    assert.equal(await page.locator("#drive-heavy").inputValue(), "1.25");
    await changes(page, async () => { await page.locator("#drive-heavy").fill("2"); await page.keyboard.press("Enter"); });
    assert.equal(await slider.inputValue(), "2");
    await changes(page, async () => { await page.locator("#drive-load").fill("600"); await page.keyboard.press("Tab"); });
    await changes(page, () => page.locator("#drive-swap").click());
    assert.match(await page.locator("#drive-trip").textContent(), /600 kg/);
  });

  test("is moved along by instants and by the scrubber, and plays", async () => {
    const player = page.locator('[data-player="pair"]');
    const speed = () => page.locator('#drive-now [data-key="speed"] td').last().textContent();
    assert.match(await speed(), /^0\.00/);
    await player.getByRole("button", { name: "Next instant" }).press("Enter");
    await player.getByRole("button", { name: "Next instant" }).press("Enter");
    assert.match(await player.getByRole("status").textContent(), /s: /);
    const at = await page.locator("#drive-torque-heavy .runner").getAttribute("cx");
    await player.getByRole("slider").focus();
    for (let i = 0; i < 40; i++) await page.keyboard.press("ArrowRight");
    assert.notEqual(await page.locator("#drive-torque-heavy .runner").getAttribute("cx"), at);
    const before = await player.getByRole("slider").inputValue();
    await player.getByRole("button", { name: "Play" }).click();
    await page.waitForFunction((was) => document.querySelector('[data-player="pair"] input').value > was, before);
    await player.getByRole("button", { name: "Pause" }).click();
  });

  test("lists the figures of one trip beside their limits", async () => {
    await turn(page, "#screen=drive&part=trip");
    assert.match(await page.locator('#drive-figures [data-key="levelling-error"]').textContent(), /± 10 mm wanted.*(within|beyond)/);
    assert.match(await page.locator('#drive-make [data-key="brake-holds"]').textContent(), /125 %/);
  });

  test("shows a stop cause by cause, the list the same as the strip", async () => {
    await turn(page, "#screen=drive&part=causes");
    const strip = await page.locator("#drive-strip svg").first().textContent();
    const links = await page.locator("#drive-list li").all();
    assert.ok(links.length > 10);
    for (const link of links) assert.ok(strip.includes(await link.locator("span").nth(1).textContent()));
    await page.locator("#drive-link-on").press("Enter");
    await page.locator("#drive-link-on").press("Enter");
    assert.match(await page.locator("#drive-link-said").textContent(), /ms: /);
    assert.equal(await page.locator("#drive-list [aria-current]").count(), 1);
  });

  test("sweeps the loads in pieces that can be stopped and gone on from", async () => {
    await page.evaluate(() => {
      // Stop at the first piece that is told.
      new MutationObserver((_, me) => {
        if (!/^1 of/.test(document.querySelector("#drive-progress-text").textContent)) return;
        me.disconnect();
        document.querySelector("#drive-cancel").click();
      }).observe(document.querySelector("#drive-progress-text"), { childList: true });
      document.querySelector('#drive-view input[value="loads"]').click();
    });
    await page.locator("#drive-progress-text", { hasText: "stopped" }).waitFor();
    assert.equal(await page.locator("#drive-loads-table tbody tr").count(), 1);
    await page.locator("#drive-cancel").click();
    await measured(page);
    assert.equal(await page.locator("#drive-loads-table tbody tr").count(), 12);
    assert.match(await page.locator("#drive-loads-say").textContent(), /spread of/);
  });

  test("is taken away as pictures and tables", async () => {
    const csv = await taken(page, () => page.getByRole("button", { name: "All figures (CSV)" }).last().click());
    assert.match(csv.text, /^set,load_kg,direction/);
    assert.match(csv.text, /\nsweep,0,up,/);
    await turn(page, "#screen=drive");
    const samples = await taken(page, () => page.locator('[data-saves="wheels"] button').last().click());
    assert.equal(samples.name, "drive-compare.csv");
    assert.match(samples.text, /^time_s,light_position_m/);
    const picture = await taken(page, () => page.locator('[data-saves="wheels"] button').first().click());
    assert.match(picture.name, /\.svg$/);
    assert.match(picture.text, /^<svg[^>]*>\s*<style>/);
    assert.match(picture.text, /<\/svg>\s*$/);
  });

  test("leaves the lift on the stage alone", async () => {
    assert.equal((await snapshot(page)).time_s, 0);
  });

  for (const part of ["wheels", "causes", "loads"]) {
    test(`axe finds nothing serious in ${part}`, async () => {
      await turn(page, `#screen=drive&part=${part}`);
      assert.deepEqual(await serious(page), []);
    });
  }
});

test("who wants no motion goes from instant to instant", async () => {
  const page = await open("", { reducedMotion: "reduce", viewport: { width: 320, height: 700 }, colorScheme: "dark" });
  await turn(page, "#screen=drive");
  assert.ok(await page.locator('[data-player="pair"] .play').isHidden());
  await page.locator('[data-player="pair"]').getByRole("button", { name: "Next instant" }).click();
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), "no sideways scrolling");
  assert.deepEqual(await serious(page), []);
  assert.deepEqual(page.faults, []);
  await page.context().close();
});
