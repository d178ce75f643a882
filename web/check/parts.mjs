// Pointing at parts, finding them, looking at them closely; buttons by the way
// one wants to go.
import assert from "node:assert/strict";
import { after, before, describe, test } from "node:test";
import { open, snapshot, until } from "./browser.mjs";

/** Asks the program in the frame. */
const ask = (page, name, ...args) => page.frame({ url: /frame/ }).evaluate(([n, a]) => JSON.parse(stage[n](...a)).value, [name, args]);
const scale = async (page) => (await ask(page, "clock")).scale;
/** The middle of a part in the page. */
async function middle(page, part) {
  const place = await page.locator("#stage").boundingBox();
  const { x0, y0, x1, y1 } = await ask(page, "box", part);
  return [place.x + (x0 + x1) / 2, place.y + (y0 + y1) / 2];
}
const chosen = (page, part) => page.waitForFunction((p) => document.querySelector("#part").value === p, part);

const noWebGL = (p) => p.addInitScript(() => {
  const get = HTMLCanvasElement.prototype.getContext;
  HTMLCanvasElement.prototype.getContext = function (kind, ...rest) { return kind.startsWith("webgl") ? null : get.call(this, kind, ...rest); };
});

describe("the list of parts", () => {
  let page;
  before(async () => { page = await open(); });
  after(async () => { assert.deepEqual(page.faults, []); await page.context().close(); });

  test("stands in groups and holds every part once", async () => {
    const groups = await page.locator("#part optgroup").evaluateAll((all) => all.map((g) => [g.label, g.children.length]));
    assert.ok(groups.some(([name]) => name === "Floor 4") && groups.some(([name]) => name === "Selector wheel"), groups.join(" "));
    const ids = await page.locator("#part optgroup option").evaluateAll((all) => all.map((o) => o.value));
    assert.deepEqual(ids.toSorted(), (await ask(page, "parts")).map((p) => p.id).toSorted());
  });

  test("is narrowed and worked by keys alone", async () => {
    await page.locator("#part-filter").focus();
    await page.keyboard.type("floor 4 lamp");
    const found = await page.locator("#part optgroup option").evaluateAll((all) => all.map((o) => o.value));
    assert.ok(found.includes("lamp.4") && found.every((id) => id.includes("lamp") && id.endsWith(".4")), found.join(" "));
    await page.keyboard.press("Enter");
    await page.waitForFunction(() => document.activeElement.id === "part" && document.querySelector("#part").value !== "");
    await page.keyboard.press("ArrowDown");
    await page.locator("#part-filter").fill("brush");
    await page.keyboard.press("ArrowDown");
    await chosen(page, "brush");
    await page.locator("#pointed", { hasText: /^Brush: / }).waitFor();
    // What is chosen elsewhere can be seen in the list.
    await ask(page, "choose", "landing.1");
    await chosen(page, "landing.1");
    assert.ok(await page.evaluate(() => {
      const list = document.querySelector("#part");
      const [mark, box] = [list.selectedOptions[0].getBoundingClientRect(), list.getBoundingClientRect()];
      return mark.top >= box.top && mark.bottom <= box.bottom + 1;
    }));
    await ask(page, "choose", "brush");
    await chosen(page, "brush");
    // The word of the trade in its name leads to where it is explained.
    const link = await page.locator("#part-text a").getAttribute("href");
    const glossary = await page.evaluate((href) => fetch(href).then((answer) => answer.text()), link);
    assert.ok(glossary.includes(`id="${link.split("#")[1]}"`), link);
    await page.locator("#part-filter").fill("no such thing");
    assert.match(await page.locator("#part option").first().textContent(), /No part/);
    assert.equal(await page.locator("#part").inputValue(), "brush", "what is chosen stays in the list");
    await page.locator("#part-filter").fill("");
  });

  test("a part lights its twins in every other picture", async () => {
    const marks = async (part) => {
      await ask(page, "choose", part);
      const lit = new Set();
      const svg = await ask(page, "svg");
      for (const [, kind] of svg.matchAll(/data-part="([a-z-]+)\.4"/g)) lit.add(kind);
      return [lit, svg.length];
    };
    const [, plain] = await marks("");
    for (const part of ["landing.4", "rim.4", "direction.4", "lamp.4", "call.4"]) {
      const [, lit] = await marks(part);
      assert.ok(lit - plain > 5 * 60, `${part} lights five places at least`);
    }
    await ask(page, "choose", "");
  });
});

describe("the picture's size", () => {
  let page;
  before(async () => { page = await open(); });
  after(async () => { assert.deepEqual(page.faults, []); await page.context().close(); });

  test("changes by buttons, and back", async () => {
    await page.locator("#zoom-in").click();
    await page.waitForFunction(() => document.querySelector("#zoom-whole").textContent === "150 %");
    await page.locator("#zoom-in").click();
    await page.locator("#zoom-out").click();
    assert.equal(await scale(page), 1.5);
    await page.locator("#zoom-whole").click();
    assert.equal(await scale(page), 1);
  });

  test("changes by the wheel about the pointer; what is under it stays", async () => {
    const [x, y] = await middle(page, "brush");
    await page.mouse.move(x, y);
    await page.mouse.wheel(0, -400);
    await page.waitForFunction(() => parseInt(document.querySelector("#zoom-whole").textContent, 10) > 150);
    const [x2, y2] = await middle(page, "brush");
    assert.ok(Math.hypot(x2 - x, y2 - y) < 12, `${x2 - x} ${y2 - y}`);
    // Dragged, the picture follows and nothing is pressed or chosen.
    await page.mouse.down();
    await page.mouse.move(x - 60, y + 5, { steps: 4 });
    await page.mouse.up();
    const [x3] = await middle(page, "brush");
    assert.ok(x3 < x2, "moved to the left");
    await page.mouse.wheel(0, 4000);
    await page.waitForFunction(() => document.querySelector("#zoom-whole").textContent === "100 %");
  });

  test("whole, the wheel moves the page", async () => {
    await page.mouse.move(...await middle(page, "wheel"));
    await page.mouse.wheel(0, 300);
    await page.waitForFunction(() => scrollY > 100);
    await page.evaluate(() => scrollTo(0, 0));
  });

  test("changes and moves by keys, and follows the part one goes to", async () => {
    await page.frame({ url: /frame/ }).locator("canvas").focus();
    await page.keyboard.press("i");
    await page.keyboard.press("i");
    await page.waitForFunction(() => document.querySelector("#zoom-whole").textContent === "225 %");
    const [x] = await middle(page, "wheel");
    await page.keyboard.press("Shift+ArrowRight");
    assert.ok((await middle(page, "wheel"))[0] < x);
    const place = await page.locator("#stage").boundingBox();
    for (let i = 0; i < 30; i++) await page.keyboard.press("ArrowRight");
    const part = (await ask(page, "clock")).chosen;
    const box = await ask(page, "box", part);
    assert.ok(box.x0 >= 0 && box.y0 >= 0 && box.x1 <= place.width && box.y1 <= place.height, `${part} is in sight`);
    await page.keyboard.press("0");
    assert.equal(await scale(page), 1);
    await page.keyboard.press("Escape");
  });
});

test("two fingers change the picture's size and one moves it, without calling the lift", async () => {
  const page = await open("", { viewport: { width: 390, height: 844 }, hasTouch: true });
  const client = await page.context().newCDPSession(page);
  const [x, y] = await middle(page, "landing.3");
  const touch = (type, ...points) => client.send("Input.dispatchTouchEvent", { type, touchPoints: points.map(([px, py], id) => ({ x: px, y: py, id })) });
  await touch("touchStart", [x - 20, y], [x + 20, y]);
  for (let d = 30; d <= 80; d += 10) await touch("touchMove", [x - d, y], [x + d, y]);
  await touch("touchEnd");
  await page.waitForFunction(() => parseInt(document.querySelector("#zoom-whole").textContent, 10) > 200);
  const before = await middle(page, "car");
  await touch("touchStart", [x, y]);
  for (let d = 0; d <= 60; d += 10) await touch("touchMove", [x - d, y]);
  await touch("touchEnd");
  assert.ok((await middle(page, "car"))[0] < before[0] - 20);
  assert.ok(Object.values((await snapshot(page)).calls).every((c) => c === 0));
  // A tap does call.
  await page.locator("#zoom-whole").click();
  await page.touchscreen.tap(...await middle(page, "button.2"));
  await until(page, (s) => s.calls["2"] === 1, 3);
  assert.deepEqual(page.faults, []);
  await page.context().close();
});

test("the drawing without WebGL is pointed at, pressed and enlarged as well", async () => {
  const page = await open("", { before: noWebGL });
  await page.locator("#drawing svg").waitFor();
  await page.mouse.move(...await middle(page, "brush"));
  await chosen(page, "brush");
  await page.mouse.wheel(0, -500);
  await page.waitForFunction(() => parseInt(document.querySelector("#zoom-whole").textContent, 10) > 180);
  await page.locator("#zoom-whole").click();
  await page.mouse.click(...await middle(page, "button.4"));
  await until(page, (s) => s.calls["4"] === 1, 3);
  assert.deepEqual(page.faults, []);
  await page.context().close();
});

test("where landings tell which way, there is a button for each way and the car's", async () => {
  const page = await open();
  await page.evaluate(() => wheelroom.load("name: Two ways\nfloors: [{name: G, height_m: 0}, {name: '1', height_m: 3.4}, {name: '2', height_m: 6.8}, {name: '3', height_m: 10.2}]\ncontrol: {scheme: two-button}\n"));
  assert.deepEqual(await page.locator("#calls li").last().locator("button").allTextContents(), ["up", "car"]);
  assert.equal(await page.locator(".call").count(), 10);
  await page.locator('.call[data-call="1:down"]').focus();
  await page.keyboard.press("Enter");
  await page.locator('.call[data-call="3:car"]').click();
  await until(page, (s) => s.calls["1"] === 1 && s.calls["3"] === 1, 3);
  const pressed = () => page.locator('.call[aria-pressed="true"]').evaluateAll((all) => all.map((b) => b.dataset.call));
  assert.deepEqual(await pressed(), ["3:car", "1:down"]);
  // A call for down waits until the car has been at the top.
  await until(page, (s) => s.car.stop === "3");
  assert.deepEqual((await pressed()).filter((c) => c === "1:down"), ["1:down"]);
  await until(page, (s) => s.car.stop === "1" && s.calls["1"] === 0);
  await page.evaluate(() => wheelroom.call("2:up"));
  assert.equal((await ask(page, "clock")).said, "The up button of floor 2 is pressed.");
  assert.match(await page.evaluate(() => { try { wheelroom.call("2"); return ""; } catch (e) { return e.message; } }), /several buttons/);
  await page.mouse.click(...await middle(page, "button-down.3"));
  await until(page, (s) => s.calls["3"] === 1, 3);
  assert.deepEqual(page.faults, []);
  await page.context().close();
});

describe("the close-up", () => {
  let page;
  before(async () => { page = await open(); });
  after(async () => { assert.deepEqual(page.faults, []); await page.context().close(); });

  test("opens by key, follows what it is told to, and moves with the car", async () => {
    await page.locator("#closeup-open").focus();
    await page.keyboard.press("Enter");
    assert.equal(await page.locator("#closeup-open").getAttribute("aria-expanded"), "true");
    const marks = (id, part) => page.locator(`#${id} [data-part="${part}"]`).count();
    await page.locator("#loupe svg").waitFor();
    assert.ok(await marks("loupe", "brush") > 0);
    await page.locator("#closeup-part").selectOption("advance-up-ramp");
    assert.ok(await marks("loupe", "advance-up-ramp") > 0);
    // In one go: a drawing may be replaced between finding a mark and asking it.
    const at = () => page.evaluate(() => document.querySelector('#rim [data-part="car"]').getBoundingClientRect().left);
    const before = await at();
    await page.evaluate(() => { wheelroom.call("3"); wheelroom.advance(6); });
    const after = await at();
    assert.ok(after > before + 20, `from ${before} to ${after}`);
  });

  test("lights the same part, and is pointed at itself", async () => {
    const at = await page.evaluate(() => {
      const { x, y, width, height } = [...document.querySelectorAll('#rim circle[data-part="rim.2"]')].at(-1).getBoundingClientRect();
      return { x, y, width, height };
    });
    await page.mouse.move(at.x + at.width / 2 + 7, at.y + at.height / 2);
    await chosen(page, "rim.2");
    assert.equal(await page.locator('#rim rect[data-part="rim.2"]').count(), 1, "a shade behind floor 2");
  });

  test("is drawn in the theme that is chosen", async () => {
    const ground = () => page.evaluate(() => document.querySelector("#loupe svg > rect").getAttribute("fill"));
    const paper = await ground();
    await page.locator("#theme label", { hasText: "Slate" }).click();
    assert.notEqual(await ground(), paper);
  });
});

describe("small screens and large ones", () => {
  const whole = async (page) => {
    const hidden = await page.evaluate(() => {
      const picture = document.querySelector("#stage").getBoundingClientRect();
      return [...document.querySelectorAll("#machine button, #machine select, #machine input, #machine p, #machine td, #machine th, #machine h2, #machine legend")]
        .filter((e) => e.offsetParent !== null && !e.closest("#stage") && !e.closest(".unseen") && !e.classList.contains("unseen"))
        .filter((e) => {
          const box = e.getBoundingClientRect();
          return box.width > 0 && box.left < picture.right - 1 && box.right > picture.left + 1 && box.top < picture.bottom - 1 && box.bottom > picture.top + 1;
        }).map((e) => e.id || e.textContent.trim().slice(0, 30));
    });
    assert.deepEqual(hidden, [], "nothing lies under or over the picture");
    assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), "no sideways scrolling");
  };

  for (const [width, height] of [[320, 640], [360, 640], [390, 844], [1280, 720], [2560, 1440]]) {
    test(`at ${width} by ${height} all is there and nothing is covered`, async () => {
      const page = await open("", { viewport: { width, height } });
      await whole(page);
      await page.locator("#closeup-open").click();
      await page.locator("#rim svg").waitFor();
      await whole(page);
      for (const id of ["run", "step", "reset", "zoom-in", "zoom-out", "zoom-whole", "part", "part-filter", "building", "calls"]) {
        assert.ok(await page.locator(`#${id}`).isVisible(), `${id} can be reached`);
      }
      const stage = await page.locator("#stage").boundingBox();
      if (width >= 1280) assert.ok(stage.width * stage.height > 0.35 * width * height, "the picture uses the room");
      assert.deepEqual(page.faults, []);
      await page.context().close();
    });
  }

  // The page zoomed to 200 % has half the CSS pixels: a screen of 1280 by 1024
  // then gives it 640 by 512 (WCAG 2.2, 1.4.4).
  test("at 200 % nothing is lost", async () => {
    const page = await open("", { viewport: { width: 640, height: 512 }, deviceScaleFactor: 2 });
    await whole(page);
    assert.ok(await page.locator("#view").isVisible(), "one picture at a time");
    await page.context().close();
  });

  test("the picture is drawn anew in device pixels when their ratio changes", async () => {
    const page = await open();
    const client = await page.context().newCDPSession(page);
    for (const ratio of [1, 1.5, 3, 2]) {
      await client.send("Emulation.setDeviceMetricsOverride", { width: 1280, height: 720, deviceScaleFactor: ratio, mobile: false });
      await page.waitForFunction((r) => {
        const frame = document.querySelector("#frame");
        const canvas = frame.contentDocument.querySelector("canvas");
        const wide = Math.round(document.querySelector("#stage").getBoundingClientRect().width * r);
        return devicePixelRatio === r && Math.abs(canvas.width - wide) <= 1 && Math.abs(frame.getBoundingClientRect().width * r - wide) <= 1;
      }, ratio);
    }
    assert.deepEqual(page.faults, []);
    await page.context().close();
  });
});
