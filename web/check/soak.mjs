// The exhibit left to itself and to restless hands: random touches at sixteen
// times the speed for as many minutes as MINUTES says, then nobody for a while,
// and again. Nothing may go wrong, nothing may get stuck, and what is in memory
// may not grow to more than twice what it was. For the first half of the time
// no language is chosen but by a finger that falls on it by chance, so that one
// page lives long; each change brings a new one. SEED repeats the same touches.
import { readFile } from "node:fs/promises";
import { base, launched, start, stop } from "./browser.mjs";

const minutes = Number(process.env.MINUTES ?? 2);
if (!(minutes > 0)) { console.error(`MINUTES=${process.env.MINUTES}: want a number of minutes, such as 30`); process.exit(2); }
const seed = Number(process.env.SEED ?? 1);
const pace = 16;
const away = 40_000; // milliseconds within which the exhibit must be back at its beginning
const moves = 15_000; // and its machine must move
const growth = 2;

// Numbers that look random, the same for each seed (mulberry32, value from memory).
let state = seed >>> 0;
function random() {
  state = (state + 0x6d2b79f5) >>> 0;
  let t = state;
  t = Math.imul(t ^ (t >>> 15), t | 1);
  t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
  return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
}
const below = (/** @type {number} */ n) => Math.floor(random() * n);

await start();
const browser = launched();
const size = { width: 1280, height: 720 };
const context = await browser.newContext({ viewport: size, hasTouch: true });
// The program's memory is not the scripts': it is asked for by its own name.
await context.addInitScript(() => {
  const begin = WebAssembly.instantiateStreaming;
  WebAssembly.instantiateStreaming = async (...args) => {
    const made = await begin.apply(WebAssembly, args);
    globalThis.programMemory = made.instance.exports.mem;
    return made;
  };
});
const page = await context.newPage();
let loads = 0;
page.on("load", () => { loads += 1; });
const wrong = [];
page.on("pageerror", (error) => wrong.push(String(error)));
// A page that had to be loaded again has said so, however well it is now.
page.on("console", (message) => { if (message.type() === "error" || /^exhibit: /.test(message.text())) wrong.push(message.text()); });
page.on("crash", () => wrong.push("the page crashed"));
const pipe = await context.newCDPSession(page);
await pipe.send("Performance.enable");
const all = await browser.newBrowserCDPSession();

const address = `${base}?view=exhibit&pace=${pace}`;
await page.goto(address);
const home = new URL(address).pathname;

const atRest = () => page.waitForFunction((path) => location.pathname === path
  && document.querySelector("#exhibit-panel")?.dataset.screen === "attract"
  && document.querySelector("#exhibit-staff")?.hidden && document.querySelector("#exhibit-idle")?.hidden, home, { timeout: away });
const time = () => page.evaluate(() => wheelroom.snapshot().time_s);

/** One touch, somewhere: mostly on a button, sometimes long, sometimes a swipe or two fingers. */
async function touch() {
  const kind = random();
  const point = () => ({ x: below(size.width), y: below(size.height) });
  if (kind < 0.75) {
    const at = await page.evaluate(([share, one]) => {
      const some = [...document.querySelectorAll("button")].filter((b) => !b.disabled && !(one && b.lang) && b.checkVisibility() && b.getBoundingClientRect().width > 0);
      const box = some[Math.floor(share * some.length)]?.getBoundingClientRect();
      return box && { x: box.x + box.width / 2, y: box.y + box.height / 2 };
    }, [random(), since() < minutes / 2]);
    if (at) await tap([at], 30);
  } else if (kind < 0.87) await tap([point()], 30);
  else if (kind < 0.91) await tap([{ x: 5, y: 5 }], 3400 / pace); // the corner of the staff
  else if (kind < 0.97) await tap([point()], 80, point());
  else await tap([point(), point()], 120, point());
}

/**
 * @param {{x: number, y: number}[]} points
 * @param {number} holds milliseconds
 * @param {{x: number, y: number}} [to] where the first is drawn
 */
async function tap(points, holds, to) {
  const send = (/** @type {string} */ type, /** @type {object[]} */ touchPoints) => pipe.send("Input.dispatchTouchEvent", { type, touchPoints });
  const named = points.map((p, id) => ({ ...p, id }));
  await send("touchStart", named);
  await page.waitForTimeout(holds);
  if (to) await send("touchMove", [{ ...to, id: 0 }, ...named.slice(1)]);
  await send("touchEnd", []);
}

/** What is in memory, megabytes and counts. */
async function memory() {
  await pipe.send("HeapProfiler.collectGarbage");
  const { metrics } = await pipe.send("Performance.getMetrics");
  const metric = (/** @type {string} */ name) => metrics.find((m) => m.name === name).value;
  const program = await page.frame({ url: /frame/ })?.evaluate(() => globalThis.programMemory?.buffer.byteLength ?? 0) ?? 0;
  const { processInfo } = await all.send("SystemInfo.getProcessInfo");
  let resident = 0;
  for (const { id, type } of processInfo) {
    if (type === "browser") continue;
    const status = await readFile(`/proc/${id}/status`, "utf8").catch(() => "");
    resident += Number(/VmRSS:\s+(\d+)/.exec(status)?.[1] ?? 0) / 1024;
  }
  return { scripts: metric("JSHeapUsedSize") / 1e6, program: program / 1e6, elements: metric("Nodes"), listeners: metric("JSEventListeners"), processes: resident };
}

/** @typedef {Awaited<ReturnType<typeof memory>>} Memory */
const middle = (/** @type {number[]} */ list) => [...list].sort((a, b) => a - b)[list.length >> 1];
/** @param {Memory[]} list @returns {Memory} */
const typical = (list) => /** @type {Memory} */ (Object.fromEntries(Object.keys(list[0]).map((key) => [key, middle(list.map((m) => m[key]))])));

const began = performance.now();
const since = () => (performance.now() - began) / 60_000;
let touches = 0;
let visits = 0;
let stuck = "";
/** @type {(Memory & {loads: number})[]} */
const samples = [];
let told = 0;
try {
  await atRest();
  while (since() < minutes && !stuck) {
    for (let n = 4 + below(24); n > 0; n--) {
      await touch().catch((error) => { if (!/navigat|destroyed|detached/i.test(String(error))) throw error; });
      touches += 1;
      await page.waitForTimeout(50 + below(450));
    }
    await atRest().catch(async () => {
      stuck = `not back at its beginning: ${await page.evaluate(() => `${location.href} ${document.querySelector("#exhibit-panel")?.dataset.screen}`).catch(String)}`;
    });
    if (stuck) break;
    const then = await time();
    await page.waitForFunction((t) => wheelroom.snapshot().time_s !== t, then, { timeout: moves }).catch(() => { stuck = "the machine stands still at its beginning"; });
    visits += 1;
    samples.push({ ...await memory(), loads });
    if (since() > told) {
      console.error(`${since().toFixed(1)} min, ${visits} times away, ${touches} touches: ${JSON.stringify(samples.at(-1), (_, v) => (typeof v === "number" ? Math.round(v) : v))}`);
      told = Math.floor(since()) + 1;
    }
  }
} catch (error) {
  stuck = String(error);
}

const figure = (/** @type {string} */ name, /** @type {number} */ value, /** @type {string} */ unit) => console.log(`${name} ${Number(value.toFixed(2))} ${unit}`);
figure("soak", since(), "min");
figure("soak-touches", touches, "touches");
figure("soak-times-left-alone", visits, "times");
figure("soak-errors", wrong.length, "errors");
figure("soak-stuck", stuck ? 1 : 0, "times");
figure("soak-pages-loaded", loads, "pages");
let grown = "";
/** Compares the first with the last of some samples. @param {typeof samples} list @param {string} of @param {Record<string, string>} units */
function compare(list, of, units) {
  if (list.length < 2) return;
  const first = typical(list.slice(0, 3));
  const last = typical(list.slice(-3));
  for (const [key, unit] of Object.entries(units)) {
    figure(`soak-${of}${key}-first`, first[key], unit);
    figure(`soak-${of}${key}-last`, last[key], unit);
    if (last[key] > growth * first[key]) grown += ` ${of}${key}`;
  }
}
// A new page is small again: growth shows in the first one, and in the browser.
compare(samples.filter((s) => s.loads === 1), "one-page-", { scripts: "MB", program: "MB", elements: "nodes", listeners: "listeners" });
compare(samples, "", { processes: "MB" });
for (const text of wrong.slice(0, 20)) console.error(`error: ${text}`);
if (stuck) {
  console.error(`stuck: ${stuck}`);
  await page.screenshot({ path: "out/soak.png" }).catch(() => {});
}
if (grown) console.error(`more than ${growth} times as much:${grown}`);
const short = samples.length < 2;
if (short) console.error("too short: let it run for more minutes");
await stop();
process.exit(wrong.length || stuck || grown || short ? 1 : 0);
