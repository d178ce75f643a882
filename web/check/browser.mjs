// One server and one Chromium for all browser tests. Tests move the machine's
// time only through `advance` and wait on states, never on the clock.
import { spawn } from "node:child_process";
import { chromium } from "playwright-core";

const root = new URL("../..", import.meta.url).pathname;

export const flags = [
  "--no-sandbox", "--disable-quic", "--no-first-run", "--disable-background-networking",
  "--disable-component-update", "--disable-sync",
  // WebGL 2 with no graphics card
  "--use-gl=angle", "--use-angle=swiftshader", "--enable-unsafe-swiftshader",
];

export const chrome = process.env.CHROMIUM ?? "/usr/bin/chromium";
let server, browser;
export let base = "";

/** Whether everything is to be tried, as `make test-long` does. */
export const large = process.env.SIZE === "large";

/** The site with a language whose texts are longer by two fifths, for tests alone. */
export const lengthened = { site: "web/check/out/long", folder: "en-XA/" };

/**
 * Serves a site.
 * @param {string} [site] its folder, from the root of the tree
 */
export async function serve(site = "web/dist") {
  const program = spawn(process.env.WHEELROOM ?? "web/check/out/wheelroom", ["serve", "--addr", "127.0.0.1:0", "--site", site], { cwd: root, stdio: ["ignore", "pipe", "inherit"] });
  const address = await new Promise((resolve, reject) => {
    program.stdout.once("data", (line) => resolve(String(line).trim()));
    program.once("exit", (code) => reject(new Error(`the server ended with ${code}`)));
  });
  return { address, stop: () => program.kill() };
}

/** Starts both; a browser that does not come up is started once more. */
export async function start() {
  server = await serve();
  base = server.address;
  const options = { executablePath: chrome, args: flags };
  browser = await chromium.launch(options).catch(() => chromium.launch(options));
}

/** The browser itself, for what concerns more than a page. */
export const launched = () => browser;

export async function stop() {
  await browser?.close();
  server?.stop();
}

/**
 * A page of its own context, of the site or of another one `at` its address.
 * What it writes to the console as an error, and what the content policy
 * refuses, is kept in `page.faults`. Its browser knows no service workers, which
 * would answer in place of what a test routes.
 */
export async function open(path = "", { ready, before, at = base, ...options } = {}) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 720 }, colorScheme: "light", ...options });
  await context.addInitScript(() => { delete Navigator.prototype.serviceWorker; });
  return visit(context, new URL(path, at).href, { ready, before });
}

/** A page of a context at an address, watched as `open` tells. */
export async function visit(context, address, { ready = true, before } = {}) {
  const page = await context.newPage();
  page.faults = [];
  page.on("console", (message) => { if (message.type() === "error" || message.type() === "warning") page.faults.push(message.text()); });
  page.on("pageerror", (error) => page.faults.push(String(error)));
  await page.addInitScript(() => {
    document.addEventListener("securitypolicyviolation", (event) => console.error(`policy: ${event.violatedDirective} ${event.blockedURI}`));
  });
  if (before) await before(page);
  await page.goto(address);
  if (ready) {
    await page.waitForSelector("#stage[data-ready]", { state: "attached", timeout: 60_000 });
    await page.evaluate(() => wheelroom.ready);
  }
  return page;
}

/** Lets machine time pass until a test of the snapshot holds. */
export async function until(page, holds, limit = 120) {
  for (let spent = 0; spent < limit; spent += 0.5) {
    const snapshot = await page.evaluate(() => wheelroom.snapshot());
    if (holds(snapshot)) return snapshot;
    await page.evaluate(() => wheelroom.advance(0.5));
  }
  throw new Error(`not within ${limit} s: ${holds}`);
}

export const snapshot = (page) => page.evaluate(() => wheelroom.snapshot());
