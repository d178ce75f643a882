// The ring bench, by keyboard and by pointer.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after, before, describe, test } from "node:test";
import { brightness } from "../page/js/screens/ring/filament.js";
import { found } from "./axe.mjs";
import { open } from "./browser.mjs";
import { invalid } from "./valid.mjs";

async function turn(page, address) {
  await page.evaluate((to) => { location.hash = to; }, address);
  await page.waitForSelector("#screen-ring[data-ready]");
}

/** The middle of the last mark of a part in a drawing. */
const middle = (page, place, part) => page.evaluate(([at, name]) => {
  const box = [...document.querySelectorAll(`${at} [data-part="${name}"]`)].at(-1).getBoundingClientRect();
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}, [place, part]);

/** Takes a file away. */
async function taken(page, deed) {
  const [download] = await Promise.all([page.waitForEvent("download"), deed()]);
  return { name: download.suggestedFilename(), text: await readFile(await download.path(), "utf8") };
}

// The program's own lamp, by the same numbers: nine tenths after the rise, a
// tenth after the fall, and what is left in between.
test("the ring bench: lamps warm up and fade as the program's do", () => {
  const lamp = { riseS: 0.07, fallS: 0.035 };
  const near = (got, want) => assert.ok(Math.abs(got - want) < 1e-12, `${got}, want ${want}`);
  near(brightness(lamp, [], 1), 0);
  near(brightness(lamp, [0.5], 0.4), 0);
  near(brightness(lamp, [0], 0.07), 0.9);
  near(brightness(lamp, [0, 10], 10.035), 0.1);
  near(brightness(lamp, [0, 0.07], 0.105), 0.09);
  near(brightness(lamp, [0, 0.07, 0.105], 0.175), 1 - 0.91 / 10);
});

describe("the ring bench: laying out", () => {
  let page;
  const terminals = () => page.locator("#ring-schedule tbody tr").count();
  const floor = (k) => page.locator(`#ring-schedule [data-terminal="${k}"] td`).last().textContent();
  before(async () => { page = await open(); await turn(page, "#screen=ring"); });
  after(async () => { assert.deepEqual(page.faults, []); await page.context().close(); });

  test("says where the lamps follow each other, and what would part them", async () => {
    assert.equal(await terminals(), 16);
    assert.match(await page.locator("#ring-notes").textContent(), /Floor 4 follows floor 3 without a dark interval/);
    assert.match(await page.locator("#ring-advice").textContent(), /no ring does that/);
  });

  test("moves a join by keyboard, back by undo", async () => {
    await page.locator("#ring-terminal").focus();
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("ArrowDown");
    assert.equal(await page.locator("#ring-terminal").inputValue(), "2");
    await page.keyboard.press("Tab");
    await page.keyboard.press("End");
    await page.waitForFunction(() => /G/.test(document.querySelector('#ring-schedule [data-terminal="2"]').textContent));
    assert.match(await floor(2), /^G by hand/);
    assert.ok(await page.locator("#ring-put").isEnabled());
    await page.locator("#ring-undo").press("Enter");
    assert.equal(await floor(2), "blank");
    assert.ok(await page.locator("#ring-put").isDisabled());
  });

  test("is chosen from by pointer", async () => {
    await page.locator('#ring-strip [data-part="terminal.5"]').first().click();
    assert.equal(await page.locator("#ring-terminal").inputValue(), "5");
    await page.locator('#ring-schedule [data-terminal="7"] button').click();
    assert.equal(await page.locator("#ring-terminal").inputValue(), "7");
  });

  test("is led from a terminal to a lamp by pointer, and kept over a reload", async () => {
    await page.locator("#ring-strip").scrollIntoViewIfNeeded();
    const from = await middle(page, "#ring-strip", "terminal.5"), lamp = await middle(page, "#ring-strip", "lamp.3");
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(lamp.x + 4, lamp.y - 200, { steps: 3 });
    assert.equal(await page.locator(".ring-lead").textContent(), "Terminal 5: let go over a lamp");
    await page.mouse.move(lamp.x, lamp.y, { steps: 3 });
    assert.equal(await page.locator(".ring-lead").textContent(), "Terminal 5 to floor 3");
    await page.mouse.up();
    assert.equal(await page.locator(".ring-lead").count(), 0);
    assert.match(await floor(5), /^3 by hand/);
    assert.match(await page.locator("#ring-notes").textContent(), /Between floors 1 and 2 the lamp of floor 3 is lit/);
    await page.reload();
    await page.waitForSelector("#screen-ring[data-ready]");
    assert.match(await floor(5), /^3 by hand/);
    assert.match(await page.locator("#ring-state").textContent(), /only on the bench/);
    await page.locator("#ring-undo").press("Enter");
    assert.equal(await floor(5), "blank");
    while (await page.locator("#ring-undo").isEnabled()) await page.locator("#ring-undo").press("Enter");
  });

  test("is led by a finger too, and the page stays where it is", async () => {
    const touch = await open("", { viewport: { width: 390, height: 844 }, hasTouch: true });
    await turn(touch, "#screen=ring");
    await touch.locator("#ring-picture").scrollIntoViewIfNeeded();
    const finger = await touch.context().newCDPSession(touch);
    const at = (type, points) => finger.send("Input.dispatchTouchEvent", { type, touchPoints: points });
    const from = await middle(touch, "#ring-picture", "terminal.8"), to = await middle(touch, "#ring-picture", "lamp.1"), scrolled = await touch.evaluate(() => scrollY);
    await at("touchStart", [from]);
    for (let k = 1; k <= 8; k++) await at("touchMove", [{ x: from.x + (to.x - from.x) * k / 8, y: from.y + (to.y - from.y) * k / 8 }]);
    await at("touchEnd", []);
    await touch.waitForFunction(() => /1 by hand/.test(document.querySelector('#ring-schedule [data-terminal="8"]').textContent));
    assert.equal(await touch.evaluate(() => scrollY), scrolled);
    assert.deepEqual(touch.faults, []);
    await touch.context().close();
  });

  test("says what is wrong in words", async () => {
    await page.locator("#ring-per-floor").fill("9");
    await page.keyboard.press("Enter");
    await page.locator("#ring-faults .fault").first().waitFor();
    assert.match(await page.locator("#ring-faults").textContent(), /8/);
    assert.equal(await page.locator("#ring-per-floor").getAttribute("aria-invalid"), "true");
    assert.ok(await page.locator("#ring-put").isDisabled());
    await page.locator("#ring-reset").click();
    assert.equal(await page.locator("#ring-per-floor").inputValue(), "2.8");
    assert.ok(await page.locator("#ring-faults").isHidden());
  });

  test("uses a proposal and puts it into the building", async () => {
    await page.locator("#ring-advice button").first().press("Enter");
    assert.doesNotMatch(await page.locator("#ring-boundaries tbody").textContent(), /no dark interval/);
    await page.locator("#ring-put").press("Enter");
    await page.locator("#ring-state", { hasText: "has this ring now" }).waitFor();
    const text = await page.evaluate(() => JSON.parse(localStorage.getItem("building")).text);
    assert.match(text, /first_terminal_m: -0\.32/);
    assert.ok(await page.locator("#ring-reset").isDisabled());
  });

  test("is taken away", async () => {
    const table = await taken(page, () => page.locator('[data-file="csv"]').click());
    assert.match(table.text, /^index,angle_deg,height_m,floor/);
    const sheet = await taken(page, () => page.locator('[data-file="sheet"]').click());
    assert.match(sheet.text, /^<svg[^>]*>\s*<style>/);
  });

  test("axe and the checker of markup find nothing", async () => {
    assert.deepEqual(await found(page), []);
    assert.equal(await invalid(page), "");
  });
});

/** A trip at 1 m/s past the ring of the first building. */
const observed = `time_s,lamp,state
0,G,on
0,,depart
1.29,G,off
2.31,1,on
4.89,1,off
5.91,2,on
8.49,2,off
9.51,3,on
11.91,4,on
12.09,3,off
14.49,4,off
15.51,5,on
16.8,,arrive
`;

describe("the ring bench: matching", () => {
  let page;
  const fit = async () => { await page.locator("#ring-fit").click(); await page.waitForFunction(() => document.querySelector("#ring-busy").hidden); };
  const rows = () => page.locator("#ring-taps tbody tr").allTextContents();
  before(async () => { page = await open(); await turn(page, "#screen=ring&part=match"); });
  after(async () => { assert.deepEqual(page.faults, []); await page.context().close(); });

  test("notes what is tapped by key and by pointer, and undoes it", async () => {
    await page.locator("#ring-tap").focus();
    for (const key of ["g", ",", "g", "1"]) await page.keyboard.press(key);
    assert.equal((await rows()).length, 4);
    assert.match((await rows())[1], /–depart$/);
    assert.match((await rows())[2], /Goff$/);
    await page.keyboard.press("Backspace");
    assert.equal((await rows()).length, 3);
    await page.locator("#ring-tap-lamps button").nth(2).click();
    assert.match((await rows())[3], /2on$/);
    assert.equal(await page.locator("#ring-tap-lamps button").nth(2).getAttribute("aria-pressed"), "true");
    await page.locator("#ring-tap-undo").click();
    const file = await taken(page, () => page.locator("#ring-taps-csv").click());
    assert.match(file.text, /^time_s,lamp,state\n0\.000,G,on\n\d\.\d{3},,depart\n\d\.\d{3},G,off\n$/);
  });

  test("keeps what was tapped over a reload and another building, and brings it back after beginning anew", async () => {
    const was = await rows();
    await page.locator("#ring-speed").fill("1.05");
    await page.locator("#ring-tap-anew").press("Enter");
    assert.deepEqual(await rows(), []);
    await page.locator("#ring-tap-undo").press("Enter");
    assert.deepEqual(await rows(), was);
    await page.locator("#building").selectOption("kestrel-court");
    await page.waitForFunction(() => document.querySelectorAll("#ring-tap-lamps button").length === 10);
    assert.deepEqual(await rows(), []);
    await page.reload();
    await page.waitForSelector("#screen-ring[data-ready]");
    await page.locator("#building").selectOption("tidemill-house");
    await page.waitForFunction(() => document.querySelectorAll("#ring-tap-lamps button").length === 6);
    assert.deepEqual(await rows(), was);
    assert.equal(await page.locator("#ring-speed").inputValue(), "1.05");
    await page.locator("#ring-speed").fill("");
    await page.locator("#ring-tap-undo").press("Enter");
    assert.equal((await rows()).length, 2, "undo reaches back beyond the reload");
  });

  test("corrects what was tapped as text", async () => {
    await page.locator("#ring-taps-edit").press("Enter");
    assert.match(await page.locator("#ring-csv").inputValue(), /^time_s,lamp,state\n0\.000,G,on\n.*,depart\n$/);
    assert.equal(await page.evaluate(() => document.activeElement.id), "ring-csv");
  });

  test("says which rows cannot be used", async () => {
    await page.locator("#ring-csv").fill("time_s,lamp,state\n1,G,off\n2,9,on\n");
    await fit();
    assert.match(await page.locator("#ring-problems").textContent(), /Row 3: there is no lamp “9”/);
    assert.ok(await page.locator("#ring-answer").isHidden());
    await page.locator("#ring-problems button").click();
    const marked = await page.evaluate(() => { const { value, selectionStart, selectionEnd } = document.querySelector("#ring-csv"); return value.slice(selectionStart, selectionEnd); });
    assert.equal(marked, "2,9,on");
  });

  test("fits a file, and plays both panels in step", async () => {
    await page.locator("#ring-csv-file").setInputFiles({ name: "observed.csv", mimeType: "text/csv", buffer: Buffer.from(observed) });
    await page.waitForFunction(() => document.querySelector("#ring-csv").value.includes("16.8"));
    // What the file replaced can be had again, and the file once more.
    await page.locator("#ring-csv-back").click();
    assert.match(await page.locator("#ring-csv").inputValue(), /2,9,on/);
    await page.locator("#ring-csv-back").click();
    await fit();
    assert.match(await page.locator("#ring-says").textContent(), /One ring explains the lamps: 2\.80/);
    assert.equal(await page.locator("#ring-edges tbody tr").count(), 11);
    assert.ok(await page.locator("#ring-unknowns tbody tr").count() >= 6);
    const player = page.locator('[data-player="ring"]');
    await player.getByRole("slider").focus();
    await page.keyboard.press("End");
    for (const side of ["seen", "fitted"]) assert.equal(await page.locator(`#ring-${side} .lamps-lit`).textContent(), "Lit: 5");
    await player.getByRole("button", { name: "Instant before" }).click();
    await player.getByRole("button", { name: "Play" }).click();
    await player.getByRole("button", { name: "Play again" }).waitFor();
    await page.locator("#ring-csv").press("End");
    await page.keyboard.type(" ");
    assert.ok(await page.locator("#ring-older").isVisible());
  });

  test("refuses a measured speed that no such car has", async () => {
    assert.equal(await page.locator("#ring-speed").getAttribute("max"), "2.5");
    await page.locator("#ring-speed").fill("3");
    await page.locator("#ring-fit").click();
    await page.locator("#ring-refusal", { hasText: "measured speed must be from 0.1 to 2.5 m/s" }).waitFor();
    await page.locator("#ring-speed").fill("");
    await fit();
    assert.ok(await page.locator("#ring-refusal").isHidden());
  });

  test("says of a speed nobody measured that only a set can be told", async () => {
    await page.locator("#ring-csv").fill(observed.replace("0,,depart\n", "").replace("16.8,,arrive\n", ""));
    await fit();
    assert.match(await page.locator("#ring-says").textContent(), /Nobody has measured the speed, so the lamps show terminals a second only.*Every ring of .* terminals a floor fits/);
    assert.match(await page.locator("#ring-apart").textContent(), /Speed and terminals a floor cannot be told apart/);
    assert.match(await page.locator("#ring-unknowns tbody tr").first().textContent(), /^Terminals a floor–/, "no single value");
    assert.ok(await page.locator("#ring-try").isHidden());
    await page.locator("#ring-speed").fill("1");
    assert.ok(await page.locator("#ring-older").isVisible());
    await fit();
    assert.match(await page.locator("#ring-says").textContent(), /One ring explains the lamps: 2\.80/);
    await page.locator("#ring-speed").fill("");
  });

  test("names the lamp that no ring in step with the others makes", async () => {
    await page.locator("#ring-csv").fill(observed.replace("5.91,2,on", "7.41,2,on").replace("8.49,2,off", "9.4,2,off"));
    await fit();
    assert.match(await page.locator("#ring-odd").textContent(), /The lamp of floor 2 does not fit .*in row 7 it comes on 1\.50 s too late/);
    assert.equal(await page.locator("#ring-edges .odd").count(), 2);
  });

  test("lights the lamp that nobody saw in the fitted panel, and names it", async () => {
    await page.locator("#ring-csv").fill(observed.replace("5.91,2,on\n", "").replace("8.49,2,off\n", ""));
    await fit();
    assert.match(await page.locator("#ring-says").textContent(), /The ring lights the lamp of floor 2 too, from 5\.\d+ s on/);
    // The slider's steps are those of its clock, which begins with the drawing.
    const scrub = page.locator('[data-player="ring"] input[type="range"]');
    const lit = async () => [await page.locator("#ring-seen .lamps-lit").textContent(), await page.locator("#ring-fitted .lamps-lit").textContent()];
    await scrub.fill("7");
    assert.deepEqual(await lit(), ["No lamp is lit", "Lit: 2"]);
  });

  test("axe and the checker of markup find nothing", async () => {
    assert.deepEqual(await found(page), []);
    assert.equal(await invalid(page), "");
  });

  test("lays the fitted ring out", async () => {
    await page.locator("#ring-try").click();
    await page.locator("#ring-lamps").waitFor();
    assert.match(await page.locator("#ring-first").inputValue(), /^-0\.\d+/);
    assert.match(await page.locator("#ring-state").textContent(), /only on the bench/);
  });
});

test("the ring bench: a long fit is watched and broken off, and the page answers meanwhile", async () => {
  const page = await open();
  const floors = Array.from({ length: 32 }, (_, k) => k);
  await page.evaluate((all) => wheelroom.load(`name: Tall\nfloors: [${all.map((k) => `{name: "${k}", height_m: ${3 * k}}`)}]\n`), floors);
  await turn(page, "#screen=ring&part=match");
  await page.locator('#ring-source input[value="csv"]').check({ force: true });
  // At 1 m/s with a lamp every 3 s; every eighth one comes when it should not.
  const edges = floors.flatMap((k) => [[Math.max(0, 3 * k - 1.2) + (k % 8 === 3 ? 2.7 : 0), k, "on"], [3 * k + 1.2 + (k % 8 === 3 ? 2.7 : 0), k, "off"]]);
  edges.sort((a, b) => a[0] - b[0]);
  await page.locator("#ring-csv").fill(`time_s,lamp,state\n${edges.map((e) => e.join(",")).join("\n")}\n`);
  await page.locator("#ring-fit").click();
  await page.locator("#ring-busy progress").waitFor();
  // The page answers: what is typed arrives while the fit goes on.
  await page.locator("#ring-speed").fill("1.2");
  await page.waitForFunction(() => document.querySelector("#ring-busy progress").value > 0);
  await page.locator("#ring-fit-cancel").press("Enter");
  await page.locator("#ring-fit-said", { hasText: "Broken off" }).waitFor();
  assert.ok(await page.locator("#ring-busy").isHidden());
  assert.equal(await page.evaluate(() => document.activeElement.id), "ring-fit");
  assert.deepEqual(page.faults, []);
  await page.context().close();
});

test("long work whose program cannot be fetched says so, and the page goes on", async () => {
  const page = await open("", { before: (p) => p.route("**/errand.wasm", (route) => route.fulfill({ status: 503 })) });
  await turn(page, "#screen=ring&part=match");
  await page.locator('#ring-source input[value="csv"]').check({ force: true });
  await page.locator("#ring-csv-example").click();
  await page.locator("#ring-fit").click();
  await page.locator("#ring-fit-said", { hasText: "It could not be fitted: Error: HTTP 503" }).waitFor();
  assert.ok(await page.locator("#ring-busy").isHidden());
  await page.evaluate(() => { location.hash = "screen=circuit"; });
  await page.locator("#screen-circuit[data-ready]").waitFor();
  await page.locator("#circuit-tool label", { hasText: "Proof" }).click();
  await page.locator("#proof-start").click();
  await page.locator("#proof-said", { hasText: "HTTP 503" }).waitFor();
  await page.unroute("**/errand.wasm");
  await page.locator("#proof-start").click();
  await page.locator("#proof-state", { hasText: /^Proved/ }).waitFor({ timeout: 60_000 });
  await page.context().close();
});

test("the ring bench: the panel keeps real time from the press of a key", async () => {
  const page = await open();
  await turn(page, "#screen=ring&part=panel");
  await page.locator("#ring-to").selectOption("1");
  const start = page.locator("#ring-start"), lit = page.locator("#ring-panel .lamps-lit");
  assert.equal(await lit.textContent(), "Lit: G");
  await start.focus();
  await page.keyboard.press("Space");
  assert.match(await start.textContent(), /Stop/);
  await page.keyboard.press("Space");
  assert.match(await page.locator("#ring-play-said").textContent(), /Stopped/);
  // The page's own clock says how long it took.
  await page.evaluate(() => {
    const button = document.querySelector("#ring-start");
    new MutationObserver(() => { window.took = performance.now() - window.began; }).observe(document.querySelector("#ring-play-said"), { childList: true });
    button.addEventListener("pointerdown", (event) => { window.began = event.timeStamp; }, { once: true });
  });
  await start.click();
  await page.locator("#ring-play-said", { hasText: "at floor 1" }).waitFor();
  assert.equal(await lit.textContent(), "Lit: 1");
  const seconds = Number(/in ([\d.]+) s/.exec(await page.locator("#ring-ride").textContent())[1]);
  assert.ok(await page.evaluate(() => window.took) >= 1000 * seconds, "not before the car is there");
  assert.deepEqual(await found(page), []);
  assert.deepEqual(page.faults, []);
  await page.context().close();
});

test("the ring bench: every lamp of the panel changes at its instant, within a frame", async () => {
  const page = await open();
  await turn(page, "#screen=ring&part=match");
  await page.locator('#ring-source input[value="csv"]').check({ force: true });
  await page.locator("#ring-csv-example").click();
  const rows = (await page.locator("#ring-csv").inputValue()).trim().split("\n").slice(1).map((row) => row.split(","));
  const marked = (state) => Number(rows.find((row) => row[2] === state)[0]);
  const began = marked("depart"), whole = marked("arrive") - began;
  const edges = rows.map(([at, floor, state]) => ({ at: Number(at) - began, floor, on: state === "on", state }))
    .filter(({ at, state }) => at > 0 && (state === "on" || state === "off"));
  assert.ok(edges.length > 8);

  await turn(page, "#screen=ring&part=panel");
  assert.deepEqual([await page.locator("#ring-from").inputValue(), await page.locator("#ring-to").inputValue()], ["G", "5"]);
  // From here on frames come when the test says so.
  await page.evaluate(() => {
    const waiting = new Map();
    let last = 0;
    window.requestAnimationFrame = (deed) => { waiting.set(++last, deed); return last; };
    window.cancelAnimationFrame = (request) => { waiting.delete(request); };
    window.frameAt = (time) => { const due = [...waiting.values()]; waiting.clear(); for (const deed of due) deed(time); };
    addEventListener("pointerdown", (event) => { window.began = event.timeStamp; }, { capture: true, once: true });
  });
  await page.locator("#ring-start").click();
  const perS = 60;
  const frames = await page.evaluate(([count, rate]) => Array.from({ length: count }, (_, n) => {
    window.frameAt(window.began + 1000 * n / rate);
    return { bright: Object.fromEntries([...document.querySelectorAll("#ring-panel .lamp")].map((lamp) => [lamp.dataset.floor, Number(lamp.style.getPropertyValue("--bright"))])),
      arrived: /at floor 5/.test(document.querySelector("#ring-play-said").textContent) };
  }), [Math.ceil((whole + 1) * perS), perS]);
  const slip = 0.001; // the rows are to the millisecond
  for (const { at, floor, on } of edges) {
    const before = frames[Math.floor((at - slip) * perS)].bright[floor], after = frames[Math.floor((at + slip) * perS) + 1].bright[floor];
    if (on) assert.ok(before === 0 && after > 0, `lamp ${floor} comes on at ${at} s: ${before}, then ${after}`);
    else assert.ok(before === 1 && after < 1, `lamp ${floor} goes out at ${at} s: ${before}, then ${after}`);
  }
  assert.ok(frames.findIndex(({ arrived }) => arrived) > whole * perS, "not before the car is there");
  assert.ok(frames.at(-1).arrived);
  assert.deepEqual(page.faults, []);
  await page.context().close();
});
