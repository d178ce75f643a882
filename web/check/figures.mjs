// Figures of the page in a browser, one a line as name, value and unit.
import { open, serve, start, stop } from "./browser.mjs";

const print = (name, value, unit) => console.log(`${name} ${Number(value.toPrecision(4))} ${unit}`);
const median = (list) => list.toSorted((a, b) => a - b)[Math.floor(list.length / 2)];

/** Frames a second over some seconds. */
const rate = (where, seconds) => where.evaluate((s) => new Promise((done) => {
  let frames = 0;
  const start = performance.now();
  const next = () => {
    frames += 1;
    if (performance.now() - start < 1000 * s) requestAnimationFrame(next);
    else done(frames / s);
  };
  requestAnimationFrame(next);
}), seconds);

const watch = (page) => page.addInitScript(() => {
  globalThis.shift = 0;
  new PerformanceObserver((list) => { for (const entry of list.getEntries()) globalThis.shift += entry.value; }).observe({ type: "layout-shift", buffered: true });
});
const painted = async (page) => (await page.waitForFunction(() => performance.getEntriesByName("first-contentful-paint")[0]?.startTime)).jsonValue();

// A browser paints its first page later than the next, whatever is on it: once
// with a single line, once with the page.
await start();
const line = await serve("web/measure/line");
const first = await open("", { ready: false, at: line.address });
print("first-contentful-paint-of-one-line-in-a-new-browser", await painted(first), "ms");
line.stop();
await stop();
await start();
const cold = await open("");
print("first-contentful-paint-in-a-new-browser", await painted(cold), "ms");
await cold.context().close();

const page = await open("", { before: watch });
print("first-contentful-paint", await painted(page), "ms");
print("machine-ready", await page.evaluate(() => performance.now()), "ms");
print("layout-shift", await page.evaluate(() => globalThis.shift), "score");

await page.evaluate(() => { wheelroom.call("5"); wheelroom.call("2"); wheelroom.run(); });
const frame = page.frame({ url: /frame/ });
const running = await rate(frame, 6);
print("frame-rate", running, "Hz");
const stageSize = await page.locator("#stage").boundingBox();

// The picture at a size of its own, over the page.
const picture = { width: 1280, height: 720 };
await page.evaluate(({ width, height }) => {
  Object.assign(document.querySelector("#stage").style, { position: "fixed", inset: "0 auto auto 0", width: `${width}px`, height: `${height}px` });
  wheelroom.reset();
  wheelroom.call("5");
  wheelroom.run();
}, picture);
await frame.waitForFunction(({ width, height }) => { const { width: w, height: h } = document.querySelector("canvas"); return w === width && h === height; }, picture);
await rate(frame, 8); // more frames than are remembered
print("update-and-draw-median", median(JSON.parse(await frame.evaluate(() => stage.took()))), "ms");
await page.context().close();

const empty = await serve("web/check/out/empty");
const bare = await open("", { ready: false, at: empty.address, viewport: { width: Math.round(stageSize.width), height: Math.round(stageSize.height) } });
await bare.waitForSelector("body[data-ready]");
const idle = await rate(bare, 6);
print("frame-rate-of-an-empty-program", idle, "Hz");
print("frame-rate-share", running / idle, "share");
empty.stop();
await stop();
