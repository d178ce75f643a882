// Figures of the page in a browser, one a line as name, value and unit.
import { spawn } from "node:child_process";
import { open, start, stop } from "./browser.mjs";

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

await start();

const watch = (page) => page.addInitScript(() => {
  globalThis.shift = 0;
  new PerformanceObserver((list) => { for (const entry of list.getEntries()) globalThis.shift += entry.value; }).observe({ type: "layout-shift", buffered: true });
});
const page = await open("", { before: watch });
print("first-contentful-paint", await page.evaluate(() => performance.getEntriesByName("first-contentful-paint")[0].startTime), "ms");
print("machine-ready", await page.evaluate(() => performance.now()), "ms");
print("layout-shift", await page.evaluate(() => globalThis.shift), "score");

await page.evaluate(() => { wheelroom.call("5"); wheelroom.call("2"); wheelroom.run(); });
const frame = page.frame({ url: /frame/ });
const running = await rate(frame, 6);
const took = JSON.parse(await frame.evaluate(() => stage.took()));
print("update-and-draw-median", median(took), "ms");
print("frame-rate", running, "Hz");
const stageSize = await page.locator("#stage").boundingBox();
await page.context().close();

const server = spawn("out/wheelroom", ["serve", "--addr", "127.0.0.1:0", "--site", "out/empty"], { stdio: ["ignore", "pipe", "inherit"] });
const empty = await new Promise((resolve) => server.stdout.once("data", (line) => resolve(String(line).trim())));
const bare = await open("", { ready: false, viewport: { width: Math.round(stageSize.width), height: Math.round(stageSize.height) } });
await bare.goto(empty);
await bare.waitForSelector("body[data-ready]");
const idle = await rate(bare, 6);
print("frame-rate-of-an-empty-program", idle, "Hz");
print("frame-rate-share", running / idle, "share");
server.kill();
await stop();
