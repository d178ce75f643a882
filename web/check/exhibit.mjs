// The view for an exhibition, as a visitor and as the staff meet it.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after, before, describe, test } from "node:test";
import { found } from "./axe.mjs";
import { large, lengthened, serve, snapshot } from "./browser.mjs";
import { answer, ask, at, begin, exhibit, later, patient, reach, staff } from "./visit.mjs";

/** Every text of the view with the most characters that stand on one of its lines. */
const lines = (page) => page.evaluate(() => [...document.querySelectorAll("#exhibit-panel *, .exhibit-foot *, #exhibit-idle *")]
  .filter((e) => e.checkVisibility() && [...e.childNodes].some((n) => n.nodeType === 3 && n.textContent.trim()))
  .map((e) => {
    const block = e.closest("p, h1, h2, dd, dt, li, button");
    const counts = {};
    const walk = document.createTreeWalker(block, NodeFilter.SHOW_TEXT);
    for (let node = walk.nextNode(); node; node = walk.nextNode()) {
      for (let i = 0; i < node.length; i++) {
        const range = document.createRange();
        range.setStart(node, i);
        range.setEnd(node, i + 1);
        const line = Math.round(range.getBoundingClientRect().bottom / 8);
        counts[line] = (counts[line] ?? 0) + 1;
      }
    }
    return { text: block.textContent, most: Math.max(...Object.values(counts)) };
  }));

/** What would have to be scrolled to be seen. */
const hidden = (page) => page.evaluate(() => {
  const panel = document.querySelector("#exhibit-panel");
  return { over: panel.scrollHeight - panel.clientHeight, wide: document.documentElement.scrollWidth - innerWidth };
});

describe("the exhibit, untouched", () => {
  let page;
  before(async () => { page = await exhibit({ query: "&pace=16" }); });
  after(async () => { assert.deepEqual(page.faults, []); await page.context().close(); });

  test("runs and explains one thing by itself, over and over", async () => {
    await page.evaluate(() => {
      globalThis.told = [];
      const place = document.querySelector(".exhibit-sentence");
      new MutationObserver(() => { if (told.at(-1) !== place.textContent) told.push(place.textContent); }).observe(place, { childList: true, subtree: true });
    });
    const opening = await page.locator(".exhibit-sentence").textContent();
    const s = await snapshot(page);
    await page.waitForFunction((was) => wheelroom.snapshot().car.position_m !== was, s.car.position_m);
    await page.waitForFunction(() => told.length > 9, undefined, { timeout: 60_000 });
    const told = await page.evaluate(() => globalThis.told);
    assert.ok(new Set(told).size >= 6, `${told}`);
    assert.ok(told.filter((text) => text === opening).length >= 1, "it begins again");
    for (const text of told) for (const sentence of text.split(/[.?!]/)) assert.ok(sentence.split(/\s+/).filter(Boolean).length <= 25, sentence);
  });

  test("offers one thing to touch, and the picture is the larger part", async () => {
    assert.equal(await page.locator("#exhibit-panel button").count(), 1);
    const { width, height } = await page.locator("#stage").boundingBox();
    assert.ok(width * height > 0.5 * 1280 * 720, `${width} × ${height}`);
  });

  test("keeps no more after twenty rounds than after two", async () => {
    // At the same sentence of a round the record holds the same.
    const rounds = (n) => page.evaluate(async (many) => {
      const place = document.querySelector(".exhibit-sentence");
      const frame = document.querySelector("#frame").contentWindow;
      for (let i = 0, last = ""; i < many;) {
        await new Promise(requestAnimationFrame);
        const { state, segment } = JSON.parse(frame.stage.lesson()).value;
        try { wheelroom.advance(5); } catch { /* something is being read */ }
        if (state === "explained" && last !== state) i += 1;
        last = state;
      }
      return { record: JSON.stringify(JSON.parse(frame.stage.record()).value).replace(/\d+/g, "0").length, nodes: document.querySelectorAll("*").length, strip: JSON.stringify(JSON.parse(frame.stage.strip()).value).replace(/\d/g, "0").length };
    }, n);
    const few = await rounds(2);
    assert.deepEqual(await rounds(18), few);
  });
});

describe("a visit", () => {
  let page;
  before(async () => { page = await exhibit(); });
  after(async () => { assert.deepEqual(page.faults, []); await page.context().close(); });

  test("moves at the first touch", async () => {
    const own = await exhibit();
    await begin(own);
    assert.equal(await at(own), "lead");
    const s = await snapshot(own);
    // The scenes' own test holds the time of it against ten seconds.
    await own.waitForFunction((was) => wheelroom.snapshot().car.position_m > was + 0.01, s.car.position_m);
    await own.context().close();
  });

  test("asks one question with three answers, and nothing moves before one is given", async () => {
    await begin(page);
    await reach(page, "asked");
    assert.equal(await page.locator("#exhibit-panel button").count(), 3);
    assert.equal(await page.locator("#exhibit-panel [aria-pressed], #exhibit-panel [aria-checked], #exhibit-panel .primary").count(), 0, "none is chosen for them");
    const was = await snapshot(page);
    await page.evaluate(() => { for (const deed of ["run", "reset"]) try { if (deed === "run") wheelroom.run(); } catch { /* refused */ } });
    await page.evaluate(async () => { for (let i = 0; i < 60; i++) await new Promise(requestAnimationFrame); });
    assert.deepEqual(await snapshot(page), was);
    assert.equal(await at(page), "asked");
    const lesson = await ask(page, "lesson");
    assert.equal(lesson.outcome, null);
    assert.ok(lesson.options.every((option) => option.because === undefined && option.right === undefined), "nothing is given away");
  });

  test("runs, and says what happened and why, to every answer its own", async () => {
    const told = [];
    for (let i = 0; i < 3; i++) {
      if (i > 0) {
        await page.evaluate(() => { location.hash = ""; });
        await page.getByRole("button", { name: "Finish" }).click();
        await reach(page, "attract");
        await page.goto(page.url().replace(/#.*/, "") + "#scene=too-late");
        await page.reload();
        await page.waitForSelector("#stage[data-ready]");
      }
      await answer(page, i);
      const lesson = await ask(page, "lesson");
      const panel = page.locator("#exhibit-panel");
      assert.equal(await panel.locator("h1").textContent(), lesson.verdict.right ? "It went as you said" : "It went otherwise");
      assert.equal(await panel.locator("dd").first().textContent(), lesson.said);
      if (!lesson.verdict.right) assert.equal(await panel.locator(".exhibit-outcome dd").textContent(), lesson.outcome.text);
      told.push(await panel.locator(".exhibit-because p").first().textContent());
      assert.ok((await panel.textContent()).split(/\s+/).length <= 75 + 12, "with buttons and heads");
      assert.ok(await panel.locator("button").count() <= 3);
    }
    assert.equal(new Set(told).size, 3);
  });

  test("goes on to a choice of at most three others, and to each of them", async () => {
    const seen = ["too-late"];
    for (let i = 0; i < 6; i++) {
      await page.getByRole("button", { name: "Another question" }).click();
      assert.equal(await at(page), "choose");
      const offered = page.locator(".exhibit-choices button");
      assert.ok(await offered.count() >= 1 && await offered.count() <= 3);
      await offered.first().click();
      const { id } = await ask(page, "lesson");
      assert.ok(i > 4 || !seen.includes(id), `${id} is offered again`);
      seen.push(id);
      assert.match(page.url(), new RegExp(`#scene=${id}$`));
      await answer(page, 1);
    }
    assert.equal(new Set(seen).size, 6);
  });

  test("shows its run again, and ends where it began", async () => {
    await page.getByRole("button", { name: "See it again" }).click();
    await reach(page, "running");
    await reach(page, "explained");
    await page.getByRole("button", { name: "Finish" }).click();
    assert.equal(await at(page), "attract");
    assert.doesNotMatch(page.url(), /#./);
  });

  test("can be made with keys alone", async () => {
    await page.reload();
    await page.waitForSelector("#stage[data-ready]");
    const press = async (name) => {
      for (let i = 0; i < 12; i++) {
        if (await page.evaluate((n) => document.activeElement?.textContent === n, name)) break;
        await page.keyboard.press("Tab");
      }
      await page.keyboard.press("Enter");
    };
    await press("Touch to begin");
    await reach(page, "asked");
    await press(await page.locator(".exhibit-choices button").nth(2).textContent());
    await reach(page, "explained");
    await press("Finish");
    assert.equal(await at(page), "attract");
    // The picture is looked at; a key there would start the machine.
    for (let i = 0; i < 10; i++) {
      assert.notEqual(await page.evaluate(() => document.activeElement?.tagName), "IFRAME");
      await page.keyboard.press("Tab");
    }
  });

  test("leads nowhere out of the exhibit", async () => {
    const length = await page.evaluate(() => history.length);
    for (const reached of ["attract", "asked", "explained"]) {
      if (reached === "asked") await begin(page);
      if (reached === "explained") await page.locator(".exhibit-choices button").first().click();
      await reach(page, reached);
      const ways = await page.evaluate(() => [...document.querySelectorAll("a[href], input, select, textarea, [contenteditable], video, audio")].filter((e) => e.checkVisibility()).map((e) => e.outerHTML));
      assert.deepEqual(ways, []);
    }
    const stopped = await page.evaluate(() => {
      const at_ = document.querySelector("#exhibit-panel h1");
      const sent = (event) => !at_.dispatchEvent(event);
      const of = (kind, more) => ({ bubbles: true, cancelable: true, ...more });
      return {
        menu: sent(new MouseEvent("contextmenu", of())), drag: sent(new DragEvent("dragstart", of())), mark: sent(new Event("selectstart", of())),
        zoom: sent(new WheelEvent("wheel", of("wheel", { ctrlKey: true }))), drop: sent(new DragEvent("drop", of())),
        pinch: sent(new TouchEvent("touchmove", of("touchmove", { touches: [0, 1].map((identifier) => new Touch({ identifier, target: at_ })) }))),
        ...Object.fromEntries(["F1", "F5", "F11", "Backspace", "BrowserBack"].map((key) => [key, sent(new KeyboardEvent("keydown", of("keydown", { key })))])),
        print: sent(new KeyboardEvent("keydown", of("keydown", { key: "p", ctrlKey: true }))), back: sent(new KeyboardEvent("keydown", of("keydown", { key: "ArrowLeft", altKey: true }))),
      };
    });
    for (const [name, is] of Object.entries(stopped)) assert.ok(is, name);
    const looks = await page.evaluate(() => { const s = getComputedStyle(document.body); return [s.touchAction, s.userSelect]; });
    assert.deepEqual(looks, ["none", "none"]);
    assert.equal(await page.evaluate(() => history.length), length, "no step in the history");
    await page.getByRole("button", { name: "Finish" }).click();
  });
});

test("no swipe leads back, not even while the page loads", async () => {
  let release;
  const held = new Promise((resolve) => { release = resolve; });
  const page = await exhibit({ hasTouch: true, ready: false, before: (p) => p.route("**/screens/exhibit.html", async (route) => { await held; await route.continue(); }) });
  const pipe = await page.context().newCDPSession(page);
  const send = (type, touchPoints) => pipe.send("Input.dispatchTouchEvent", { type, touchPoints });
  for (let i = 0; i < 24; i++) {
    if (i === 12) {
      release();
      await page.waitForSelector("#stage[data-ready]");
    }
    const y = 200 + 10 * i;
    await send("touchStart", [{ x: 10, y, id: 0 }]);
    for (let x = 60; x < 1200; x += 120) await send("touchMove", [{ x, y, id: 0 }]);
    await send("touchEnd", []);
  }
  await page.waitForSelector('#exhibit-panel[data-screen="attract"], #exhibit-panel[data-screen="lead"], #exhibit-panel[data-screen="asked"]');
  assert.match(page.url(), /view=exhibit/);
  await page.context().close();
});

describe("what is seen and touched", () => {
  /** Goes through the screens and looks at each. */
  async function screens(page, look) {
    await look("attract");
    await begin(page);
    await look("lead");
    await reach(page, "asked");
    await look("asked");
    await page.locator(".exhibit-choices button").first().click();
    await reach(page, "explained");
    await look("explained");
    await page.locator(".exhibit-buttons .primary").click();
    await look("choose");
    await page.locator("#exhibit-corner").focus();
    await page.keyboard.press("Enter");
    await look("pad");
    for (const digit of "3141") await page.locator(".exhibit-digits button", { hasText: digit }).click();
    await look("staff");
    await page.locator(".exhibit-desk header button").click();
    await later(page, 100);
    await page.locator("#exhibit-idle").waitFor();
    await look("idle");
    await page.locator("#exhibit-idle button").click();
  }

  /** Goes through all the scenes: nothing of them has to be scrolled. */
  async function scenes(page) {
    const seen = new Set();
    for (let i = 0; i < 6; i++) {
      const screen = await at(page);
      if (screen === "attract") await begin(page);
      if (screen === "explained") await page.locator(".exhibit-buttons .primary").click();
      if (screen !== "attract") await page.locator(".exhibit-choices button").first().click();
      const { id } = await ask(page, "lesson");
      seen.add(id);
      await reach(page, "asked");
      assert.deepEqual(await hidden(page), { over: 0, wide: 0 }, `${id} asked`);
      await answer(page, 0);
      assert.deepEqual(await hidden(page), { over: 0, wide: 0 }, `${id} explained`);
    }
    assert.equal(seen.size, 6);
  }

  // Where the staff has not said how large the screen is, it is taken for one of ten inches.
  for (const [width, height, folder, inches] of [[1920, 1080, "", 24], [1080, 1920, "", 43], [1280, 720, "", 0], [1280, 720, "de/", 0], ...(large ? [[1080, 1920, "de/", 0]] : [])]) {
    test(`axe finds nothing, what is touched is 20 mm large, no line is longer than 55 characters and nothing is cut off at ${width} × ${height} ${folder}`, async () => {
      const page = await exhibit({ folder, viewport: { width, height }, kept: { settings: { ...patient.settings, inches } } });
      const px = 20 * Math.hypot(width, height) / (25.4 * (inches || 10));
      assert.match(await page.locator(".exhibit-foot").textContent(), folder ? /Drinnen bleiben und den Notruf drücken.*Ein Lehrmodell: Es qualifiziert niemanden/s : /Stay inside and press the alarm.*A teaching model: it qualifies nobody/s);
      const caution = await page.locator(".exhibit-model").textContent();
      await screens(page, async (screen) => {
        assert.deepEqual(await found(page), [], screen);
        const sizes = await page.evaluate(() => [...document.querySelectorAll("button")].filter((b) => b.checkVisibility()).map((b) => { const box = b.getBoundingClientRect(); return [b.textContent || b.id, box.width, box.height]; }));
        assert.ok(sizes.length > 0);
        for (const [text, wide, high] of sizes) assert.ok(wide >= px - 0.1 && high >= px - 0.1, `${screen}, ${text}: ${wide} × ${high}, wanted ${px}`);
        if (["pad", "staff"].includes(screen)) return;
        for (const { text, most } of await lines(page)) {
          // One caution stands in the foot, on a line or two of its own.
          assert.ok(most <= 55 || text === caution, `${screen}: ${most} characters on a line of “${text}”`);
        }
        assert.deepEqual(await hidden(page), { over: 0, wide: 0 }, screen);
        // Both cautions are seen, and nothing lies over them.
        const over = await page.evaluate(() => [...document.querySelectorAll(".exhibit-foot p")].map((p) => {
          const { left, top, bottom } = p.getBoundingClientRect();
          const seen = (y) => document.elementFromPoint(left + 4, y) === p;
          return seen(top + 4) && seen(bottom - 4) ? "" : p.textContent;
        }));
        assert.deepEqual(over, ["", ""], screen);
      });
      await scenes(page);
      await page.context().close();
    });
  }

  test("texts longer by two fifths are not cut off either", async () => {
    const long = await serve(lengthened.site);
    try {
      for (const [width, height] of [[1280, 720], [1080, 1920]]) {
        const page = await exhibit({ site: long.address, folder: lengthened.folder, viewport: { width, height } });
        assert.equal(await page.evaluate(() => document.documentElement.lang), lengthened.folder.replace("/", ""));
        await scenes(page);
        await page.context().close();
      }
    } finally { long.stop(); }
  });

  test("a visitor who wants no motion is shown key frames", async () => {
    const page = await exhibit({ reducedMotion: "reduce", query: "" });
    // Between two pictures lies half a second of the viewer's clock or more.
    const changes = await page.evaluate(async () => {
      const frame = document.querySelector("#frame").contentWindow;
      const seen = [];
      for (let i = 0, last = ""; i < 120; i++) {
        await new Promise(requestAnimationFrame);
        const now = frame.stage.svg();
        if (now !== last) seen.push(performance.now());
        last = now;
      }
      return { seen: seen.length, seconds: (performance.now() - seen[0]) / 1000, moves: JSON.parse(frame.stage.clock()).value.running };
    });
    assert.ok(changes.seen <= 2 + 2 * changes.seconds, `${changes.seen} pictures in ${changes.seconds} s`);
    await page.context().close();
  });
});

describe("languages", () => {
  test("are each named in their own, on every screen, and keep the place", async () => {
    const page = await exhibit();
    const offered = page.locator("#exhibit-languages button");
    for (const screen of ["attract", "asked", "explained"]) {
      if (screen === "asked") await begin(page);
      if (screen === "explained") await page.locator(".exhibit-choices button").first().click();
      await reach(page, screen);
      assert.deepEqual(await offered.allTextContents(), ["English", "Deutsch"]);
      assert.ok(await offered.last().isVisible(), screen);
    }
    const was = { said: (await ask(page, "lesson")).chosen, snapshot: await snapshot(page) };
    await offered.last().click();
    await page.waitForURL(/\/de\/\?view=exhibit.*#scene=/);
    await page.waitForSelector("#stage[data-ready]");
    await reach(page, "explained");
    assert.equal((await ask(page, "lesson")).chosen, was.said);
    assert.deepEqual(await snapshot(page), was.snapshot);
    assert.match(await page.locator("#exhibit-panel").textContent(), /Es kam.*Stockwerk/s);
    assert.deepEqual(await page.locator("#exhibit-languages button[aria-current]").allTextContents(), ["Deutsch"]);
    // Nobody is there any more: back to the language the exhibit begins in.
    await Promise.all([page.waitForURL((url) => url.pathname === "/" && url.hash === "", { timeout: 60_000 }), later(page, 150)]);
    await page.waitForSelector('#exhibit-panel[data-screen="attract"]');
    assert.equal(await page.evaluate(() => document.documentElement.lang), "en");
    await page.context().close();
  });

  test("go back to the one the staff has chosen, from the attracting scene as well", async () => {
    const page = await exhibit();
    await page.locator("#exhibit-languages button").last().click();
    await page.waitForURL(/\/de\//);
    await page.waitForSelector("#stage[data-ready]");
    await Promise.all([page.waitForURL((url) => url.pathname === "/", { timeout: 60_000 }), later(page, 150)]);
    await page.waitForSelector("#stage[data-ready]");
    await staff(page);
    await page.locator(".exhibit-row button[lang=de]").click();
    await page.locator(".exhibit-desk header button").click();
    await Promise.all([page.waitForURL(/\/de\//, { timeout: 60_000 }), later(page, 150)]);
    await page.context().close();
  });

  test("are no choice where there is only one", async () => {
    const page = await exhibit({ before: (p) => p.addInitScript(() => {
      addEventListener("DOMContentLoaded", () => document.querySelectorAll('link[rel="alternate"]').forEach((link) => link.remove()));
    }) });
    assert.ok(await page.locator("#exhibit-languages").isHidden());
    await page.context().close();
  });
});

describe("the staff", () => {
  let page;
  before(async () => { page = await exhibit(); });
  after(async () => { assert.deepEqual(page.faults, []); await page.context().close(); });
  const shown = () => page.locator("#exhibit-staff").isVisible();
  const corner = async () => {
    const { x, y, width, height } = await page.locator("#exhibit-corner").boundingBox();
    await page.mouse.move(x + width / 2, y + height / 2);
  };

  test("come in by a long press on the corner and a code", async () => {
    await corner();
    await page.mouse.down();
    await page.mouse.up();
    await page.evaluate(async () => { for (let i = 0; i < 30; i++) await new Promise(requestAnimationFrame); });
    assert.ok(!(await shown()), "a touch is not enough");
    await corner();
    await page.mouse.down();
    await page.locator(".exhibit-pad").waitFor();
    await page.mouse.up();
    for (const digit of "0000") await page.locator(".exhibit-digits button", { hasText: digit }).click();
    assert.match(await page.locator(".exhibit-wrong").textContent(), /not the code/);
    for (const digit of "00000000") await page.locator(".exhibit-digits button", { hasText: digit }).click();
    assert.ok(!(await shown()), "three wrong codes close it");
    await staff(page);
    assert.ok(await page.getByRole("heading", { name: "Settings of the exhibit" }).isVisible());
  });

  test("set the screen, times and scenes, within their bounds, and it lasts", async () => {
    const target = () => page.evaluate(() => document.documentElement.style.getPropertyValue("--target"));
    const unknown = await target();
    await page.getByRole("button", { name: "Diagonal of the screen: 10 more" }).click();
    assert.notEqual(await target(), unknown);
    for (let i = 0; i < 8; i++) await page.getByRole("button", { name: "Without a touch, it asks after: 5 more" }).click();
    for (let i = 0; i < 8; i++) await page.getByRole("button", { name: "It then waits: 5 less" }).click();
    const row = (name) => page.getByRole("group", { name }).locator("output");
    assert.equal(await row("Without a touch").textContent(), "90 seconds");
    assert.equal(await row("It then waits").textContent(), "20 seconds");
    await page.getByRole("button", { name: "Who is served first?" }).click();
    await page.getByRole("button", { name: "Slate" }).click();
    await page.reload();
    await page.waitForSelector("#stage[data-ready]");
    assert.equal(await page.evaluate(() => document.documentElement.dataset.theme), "slate");
    await begin(page);
    assert.equal((await ask(page, "lesson")).id, "wheel-turn", "the first that is offered");
    await answer(page, 2);
    await staff(page);
    assert.equal(await row("Without a touch").textContent(), "90 seconds");
  });

  test("read, save and clear the counts", async () => {
    const cells = () => page.locator(".exhibit-counts tbody tr").evaluateAll((rows) => rows.map((r) => [...r.cells].map((c) => c.textContent)));
    assert.deepEqual(await cells(), [["Visits begun", "English", "1"], ["How far does the wheel turn?", "English", "1"]]);
    const [file] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save as CSV" }).click()]);
    assert.equal(file.suggestedFilename(), "exhibit-counts.csv");
    assert.equal(await readFile(await file.path(), "utf8"), "what,scene,language,count\r\nbegun,,en,1\r\nfinished,wheel-turn,en,1\r\n");
    await page.getByRole("button", { name: "Set to zero" }).click();
    assert.equal((await cells()).length, 2, "not at one touch");
    await page.getByRole("button", { name: "Really?" }).click();
    assert.deepEqual(await cells(), [["Nothing has been counted yet."]]);
  });

  test("change the code", async () => {
    const type = async (digits) => { for (const digit of digits) await page.locator(".exhibit-digits button", { hasText: digit }).click(); };
    await page.getByRole("button", { name: "Change the code" }).click();
    await type("2718");
    await type("2719");
    assert.match(await page.locator(".exhibit-wrong").textContent(), /differ/);
    await type("2718");
    await page.getByRole("button", { name: "Close" }).click();
    await staff(page);
    assert.match(await page.locator(".exhibit-wrong").textContent(), /not the code/);
    await type("2718");
    assert.ok(await page.locator(".exhibit-desk").isVisible());
    await page.getByRole("button", { name: "Close" }).click();
    assert.equal(await at(page), "explained", "the visit stands as it stood");
  });
});
