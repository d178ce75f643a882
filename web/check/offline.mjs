// Use without a network: from a cold start, through a newer version, and where
// the browser gives no room. One door stands in front of two servers, so that
// one origin can serve either version, or none.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { appendFileSync, cpSync, mkdtempSync, readdirSync, rmSync, statSync, writeFileSync } from "node:fs";
import http from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, describe, test } from "node:test";
import { chromium } from "playwright-core";
import { base, chrome, flags, open, serve, until, visit } from "./browser.mjs";

const root = new URL("../..", import.meta.url).pathname;
const newer = "web/check/out/newer"; // a second version: every text has a line more

/** A door that can be shut. What goes through it is counted, in bytes by path. */
async function door() {
  const sent = {};
  let to = "", worker = "", port = 0, server;
  const forward = (request, response) => {
    const onward = http.request(new URL(request.url, request.url === "/sw.js" ? worker : to), { method: request.method, headers: request.headers }, (answer) => {
      response.writeHead(answer.statusCode, answer.headers);
      answer.on("data", (chunk) => { sent[request.url] = (sent[request.url] ?? 0) + chunk.length; });
      answer.pipe(response);
    });
    onward.on("error", () => response.destroy());
    request.pipe(onward);
  };
  return {
    sent,
    get address() { return `http://127.0.0.1:${port}/`; },
    /** Leads to a server from now on, and for the worker's script perhaps to another. */
    async lead(address, script = address) {
      [to, worker] = [address, script];
      if (server?.listening) return;
      server = http.createServer(forward);
      await new Promise((resolve) => { server.listen(port, "127.0.0.1", resolve); });
      port = server.address().port;
    },
    async shut() {
      server.closeAllConnections();
      await new Promise((resolve) => { server.close(resolve); server.closeAllConnections(); });
    },
  };
}

/** A browser that keeps what it has in a folder, as a reader's own does. */
const keeping = (folder) => chromium.launchPersistentContext(folder, { executablePath: chrome, args: flags, viewport: { width: 1280, height: 720 } });

const state = (page, wanted) => page.waitForFunction((w) => document.documentElement.dataset.offline === w, wanted, { timeout: 60_000 });
const said = (page) => page.locator("#offline").textContent();
const version = (page) => page.evaluate(() => document.documentElement.dataset.version);
/** Has the page look again at what is kept, as it does now and then. */
const look = (page) => page.evaluate(() => { document.dispatchEvent(new Event("visibilitychange")); });
const caching = (page) => page.evaluate(() => caches.keys());

/**
 * Of which version the site's files are that a page and its frame get: fetches
 * them all, and returns the names by the mark in their text.
 */
async function versions(page, names) {
  const found = { older: [], newer: [], refused: [] };
  for (const where of [page, page.frame({ url: /frame\.html/ })]) {
    const answers = await where.evaluate(async ([list, at]) => Promise.all(list.map(async (name) => {
      const answer = await fetch(new URL(name, at)).catch(() => null);
      return [name, answer?.ok ? (await answer.text()).includes("mark of the second version") : null];
    })), [names, page.url().replace(/[^/]*$/, "")]);
    for (const [name, is] of answers) found[is === null ? "refused" : is ? "newer" : "older"].push(name);
  }
  return found;
}

/** What a worker of the page can do with the program that it gets. */
const proves = (page) => page.evaluate(() => new Promise((resolve) => {
  const worker = new Worker("js/errand-worker.js");
  worker.addEventListener("message", ({ data }) => { worker.terminate(); resolve(data.error ? "nothing" : "proofs"); });
  worker.addEventListener("error", () => resolve("no worker"));
  worker.postMessage({ do: "prove", building: "name: Two\nfloors: [{name: G, height_m: 0}, {name: '1', height_m: 4}]\n" });
}));

describe("without a network", () => {
  const gate = {};
  let folder, second, texts;
  before(async () => {
    Object.assign(gate, await door());
    folder = mkdtempSync(join(tmpdir(), "wheelroom-"));
    rmSync(root + newer, { recursive: true, force: true });
    cpSync(`${root}web/dist`, root + newer, { recursive: true });
    texts = readdirSync(root + newer, { recursive: true }).filter((name) => /\.(js|css|html)$/.test(name) && name !== "sw.js");
    for (const name of texts) appendFileSync(`${root}${newer}/${name}`, name.endsWith(".html") ? "<!-- mark of the second version -->\n" : "/* mark of the second version */\n");
    writeFileSync(`${root}${newer}/errand.wasm`, "no program: a version whose worker is broken");
    execFileSync("go", ["run", "./web/build", "--again", "--out", newer, "--quality", "1"], { cwd: root });
    second = await serve(newer);
  });
  after(async () => {
    second?.stop();
    rmSync(folder, { recursive: true, force: true });
  });

  describe("in a browser that is closed and opened again", () => {
    let context, gate, page;
    before(async () => { gate = await door(); await gate.lead(base); context = await keeping(folder); });
    after(async () => { await context.close(); await gate.shut().catch(() => {}); });

    test("the site is kept after the first picture, and says so when it is", async () => {
      page = await visit(context, gate.address, {
        // Registration is no business of the time before the machine runs.
        before: (p) => p.addInitScript(() => {
          if (window !== top) return;
          const { register } = ServiceWorkerContainer.prototype;
          ServiceWorkerContainer.prototype.register = function (...all) {
            globalThis.early = !document.querySelector("#stage[data-ready]");
            return register.apply(this, all);
          };
        }),
      });
      await state(page, "ready");
      assert.match(await said(page), /Ready offline/);
      assert.equal(await page.evaluate(() => globalThis.early), false);
      // The page itself needs no second visit to be served by the worker.
      assert.ok(await page.evaluate(() => navigator.serviceWorker.controller !== null));
      assert.deepEqual(page.faults, []);
    });

    test("the browser finds nothing that keeps it from being installed", async () => {
      const { installabilityErrors } = await (await context.newCDPSession(page)).send("Page.getInstallabilityErrors");
      assert.deepEqual(installabilityErrors, []);
    });

    test("the program has come over the network once", async () => {
      const sizes = ["", ".br", ".gz"].map((copy) => statSync(`${root}web/dist/stage.wasm${copy}`).size);
      assert.ok(sizes.includes(gate.sent["/stage.wasm"]), `${gate.sent["/stage.wasm"]} of ${sizes}`);
    });

    test("a cold start with the server down gives the page, the machine and every screen", async () => {
      await context.close();
      await gate.shut();
      await assert.rejects(fetch(gate.address));
      context = await keeping(folder);
      page = await visit(context, gate.address);
      await state(page, "ready");
      await page.evaluate(() => wheelroom.call("2"));
      await until(page, (s) => s.car.stop === "2");
      const names = await page.locator("#screens a[data-screen]").evaluateAll((all) => all.map((a) => a.dataset.screen));
      assert.ok(names.length > 8, names.join());
      for (const name of names.filter((n) => n !== "machine")) {
        await page.evaluate((n) => { location.hash = `screen=${n}`; }, name);
        await page.locator(`#screen-${name}[data-ready]`).waitFor();
      }
      assert.equal(await proves(page), "proofs");
      assert.deepEqual(page.faults, []);
      await page.close();
    });

    test("addresses with a view, a lesson or a moment open, and so do the other pages", async () => {
      for (const [address, shows] of [
        ["index.html#lesson=two-calls&item=1", "#lesson:not([hidden]) #lesson-title"],
        ["?view=lecture#lesson=two-calls&item=1", ":root[data-view=lecture] #stage[data-ready]"],
        ["?view=exhibit", ":root[data-view=exhibit] #stage[data-ready]"],
        ["de/#lesson=two-calls&item=1", ":root[lang=de] #lesson-title"],
        ["#moment=4&building=tidemill-house&do=3@0.5", "#stage[data-ready]"],
      ]) {
        page = await visit(context, gate.address + address);
        await page.locator(shows).first().waitFor();
        assert.deepEqual(page.faults, [], address);
        await page.close();
      }
      for (const other of ["about.html#licences", "de/glossary.html"]) {
        page = await visit(context, gate.address + other, { ready: false });
        assert.ok((await page.locator("main").textContent()).length > 500, other);
        assert.equal(await page.evaluate(() => document.fonts.ready.then((f) => [...f].some((face) => face.status === "loaded"))), true, other);
        assert.deepEqual(page.faults, [], other);
        await page.close();
      }
    });
  });

  describe("when there is a newer version", () => {
    let context, gate, page, other, was;
    before(async () => {
      gate = await door();
      await gate.lead(base);
      context = await (await chromium.launch({ executablePath: chrome, args: flags })).newContext();
      page = await visit(context, gate.address);
      await state(page, "ready");
      // One page that was controlled from the first, and one from later on.
      other = await visit(context, `${gate.address}#lesson=two-calls&item=1`);
      await state(other, "ready");
      was = await version(page);
      assert.equal(await version(other), was);
    });
    after(async () => { await context.browser().close(); await gate.shut(); });

    test("it waits, and a calm notice tells of it", async () => {
      await gate.lead(second.address);
      await page.evaluate(async () => (await navigator.serviceWorker.getRegistration()).update());
      for (const p of [page, other]) {
        await p.locator("#update", { hasText: "A new version is ready" }).waitFor({ timeout: 60_000 });
        const { older, newer, refused } = await versions(p, texts);
        assert.deepEqual([newer, refused], [[], []]);
        assert.equal(older.length, 2 * texts.length);
      }
      await state(page, "ready");
    });

    test("it is put off by one button, and covers nothing then", async () => {
      await other.locator("#update button", { hasText: "Later" }).click();
      assert.ok(await other.locator("#update").isHidden());
    });

    test("it comes whole when it is asked for, and a page of the old one keeps its own", async () => {
      await page.locator("#update button", { hasText: "Load it now" }).click();
      await page.waitForFunction((v) => document.documentElement.dataset.version !== v, was);
      await state(page, "ready");
      const now = await versions(page, texts);
      assert.deepEqual([now.older, now.refused], [[], []]);
      const then = await versions(other, texts);
      assert.deepEqual([then.newer, then.refused], [[], []]);
      assert.deepEqual([await proves(other), await proves(page)], ["proofs", "nothing"]);
      assert.equal((await caching(page)).filter((name) => !name.endsWith("pages")).length, 2, "both versions are in use");
    });

    test("a worker that was put to rest still knows which page is of which version", async () => {
      const session = await context.newCDPSession(page);
      await session.send("ServiceWorker.enable");
      await session.send("ServiceWorker.stopAllWorkers");
      const then = await versions(other, texts);
      assert.deepEqual([then.newer, then.refused], [[], []]);
      // A frame that lost its graphics is loaded again, from its page's version.
      const frame = other.frame({ url: /frame\.html/ });
      await Promise.all([frame.waitForNavigation(), frame.evaluate(() => { location.reload(); })]);
      const again = await versions(other, texts);
      assert.deepEqual([again.newer, again.refused], [[], []]);
      assert.doesNotMatch(await other.frame({ url: /frame\.html/ }).content(), /mark of the second version/);
    });

    test("the old one is gone when no page is of it any more", async () => {
      await other.reload();
      await other.waitForSelector("#stage[data-ready]", { timeout: 60_000 });
      await state(other, "ready");
      const now = await versions(other, texts);
      assert.deepEqual([now.older, now.refused], [[], []]);
      await other.waitForFunction(async () => (await caches.keys()).filter((name) => !name.endsWith("pages")).length === 1);
      await gate.shut();
      await other.reload();
      await other.waitForSelector("#stage[data-ready]", { timeout: 60_000 });
      assert.deepEqual(await other.evaluate(() => wheelroom.snapshot().time_s >= 0), true);
      await gate.lead(second.address);
    });

    test("the exhibit takes it by itself between two rounds, and shows no notice", async () => {
      await gate.lead(base);
      const own = await context.browser().newContext({ viewport: { width: 1920, height: 1080 } });
      const shown = await visit(own, `${gate.address}?view=exhibit&kiosk=1&pace=16`);
      await state(shown, "ready");
      await shown.evaluate(() => { new MutationObserver(() => { if (document.querySelector("#update")) sessionStorage.notice = "shown"; }).observe(document.body, { childList: true }); });
      await gate.lead(second.address);
      await shown.evaluate(async () => (await navigator.serviceWorker.getRegistration()).update());
      await shown.waitForFunction((v) => document.documentElement.dataset.version !== v, was, { timeout: 60_000 });
      await state(shown, "ready");
      const now = await versions(shown, texts);
      assert.deepEqual([now.older, now.refused], [[], []]);
      assert.equal(await shown.evaluate(() => sessionStorage.notice), undefined);
      await own.close();
    });
  });

  describe("where something is missing", () => {
    let browser, context, gate;
    before(async () => {
      gate = await door();
      await gate.lead(base);
      browser = await chromium.launch({ executablePath: chrome, args: flags });
    });
    after(async () => { await browser.close(); await gate.shut(); });

    test("what the browser threw away is not called ready, and is fetched again", async () => {
      context = await browser.newContext();
      const page = await visit(context, gate.address);
      await state(page, "ready");
      await gate.shut();
      // With what it keeps for itself: a file found there would not be missing.
      await (await context.newCDPSession(page)).send("Network.clearBrowserCache");
      await page.evaluate(async () => { for (const name of await caches.keys()) await caches.delete(name); });
      await look(page);
      await state(page, "failed");
      assert.match(await said(page), /Not saved/);
      await gate.lead(base);
      await look(page);
      await state(page, "ready");
      assert.match(await said(page), /Ready offline/);
      // One file less than all is not all.
      await page.evaluate(async () => {
        const cache = await caches.open((await caches.keys()).find((name) => !name.endsWith("pages")));
        globalThis.shown = [];
        new MutationObserver(() => globalThis.shown.push(document.documentElement.dataset.offline)).observe(document.documentElement, { attributeFilter: ["data-offline"] });
        await cache.delete(new URL("js/early.js", location.href));
      });
      await look(page);
      await page.waitForFunction(() => globalThis.shown.join() === "busy,ready");
      await context.close();
    });

    test("a page whose version was thrown away goes on from the network, whatever that has", async () => {
      context = await browser.newContext();
      let page = await visit(context, gate.address);
      await state(page, "ready");
      await page.evaluate(async () => { for (const name of await caches.keys()) await caches.delete(name); });
      await gate.lead(second.address);
      page = await visit(context, gate.address);
      const { older, refused } = await versions(page, texts);
      assert.deepEqual([older, refused], [[], []]);
      await gate.lead(base);
      await context.close();
    });

    test("with no room the page works and says only what is so", async () => {
      context = await browser.newContext();
      const page = await visit(context, `${gate.address}about.html`, { ready: false });
      const session = await context.newCDPSession(page);
      await session.send("Storage.overrideQuotaForOrigin", { origin: new URL(gate.address).origin, quotaSize: 3_000_000 });
      await page.goto(gate.address);
      await page.waitForSelector("#stage[data-ready]", { timeout: 60_000 });
      await state(page, "failed");
      assert.match(await said(page), /Not saved.*no room/);
      assert.deepEqual((await caching(page)).filter((name) => !name.endsWith("pages")), [], "nothing is left lying");
      await page.evaluate(() => wheelroom.call("2"));
      await until(page, (s) => s.car.stop === "2");
      await page.reload();
      await page.waitForSelector("#stage[data-ready]", { timeout: 60_000 });
      await context.close();
    });

    test("a file that is not of this version keeps the rest from being kept", async () => {
      context = await browser.newContext();
      // A server that is being renewed: the old list, the new files.
      await gate.lead(second.address, base);
      const page = await visit(context, gate.address);
      await state(page, "failed");
      assert.match(await said(page), /Not saved.*not every file arrived/);
      assert.deepEqual((await caching(page)).filter((name) => !name.endsWith("pages")), []);
      await gate.lead(base);
      await context.close();
    });

    test("a browser that knows no workers shows nothing of it", async () => {
      const page = await open();
      assert.ok(await page.locator("#offline").isHidden());
      assert.equal(await page.evaluate(() => document.documentElement.dataset.offline), undefined);
      assert.deepEqual(page.faults, []);
      await page.context().close();
    });

    test("a package for a college’s system keeps nothing and says nothing", async () => {
      const zip = "web/check/out/plain.zip", folder = "web/check/out/plain";
      execFileSync("go", ["run", "./web/build", "--pack", zip], { cwd: root });
      rmSync(root + folder, { recursive: true, force: true });
      execFileSync("unzip", ["-q", zip, "-d", folder], { cwd: root });
      const packed = await serve(folder);
      context = await browser.newContext();
      const page = await visit(context, packed.address);
      assert.ok(await page.locator("#offline").isHidden());
      assert.equal(await page.evaluate(async () => (await navigator.serviceWorker.getRegistrations()).length), 0);
      assert.equal(await page.locator("link[rel=manifest]").count(), 0);
      assert.deepEqual(page.faults, []);
      await context.close();
      packed.stop();
    });
  });
});

describe("the page as an application", () => {
  test("its manifest is sound, and its icons are as large as it says", async () => {
    const browser = await chromium.launch({ executablePath: chrome, args: flags });
    const context = await browser.newContext();
    const page = await visit(context, base);
    const session = await context.newCDPSession(page);
    const { errors, data } = await session.send("Page.getAppManifest");
    assert.deepEqual(errors, []);
    const manifest = JSON.parse(data);
    assert.equal(manifest.lang, "en");
    assert.equal(manifest.name, await page.title());
    for (const { src, sizes, type } of manifest.icons) {
      const size = await page.evaluate(async (address) => {
        const image = new Image();
        image.src = address;
        await image.decode();
        return `${image.naturalWidth}x${image.naturalHeight}`;
      }, new URL(src, base).href);
      if (type === "image/png") assert.equal(size, sizes, src);
    }
    await browser.close();
  });

  test("its icon in pixels is the drawing of the mark", async () => {
    const page = await open();
    // The same mark by the browser's own painter: a mean of two levels of 255
    // is what two ways of smoothing an edge come to (measured: 0.4).
    const apart = await page.evaluate(async () => {
      const pixels = async (address) => {
        const image = new Image(192, 192);
        image.src = address;
        await image.decode();
        const canvas = new OffscreenCanvas(192, 192).getContext("2d");
        canvas.drawImage(image, 0, 0, 192, 192);
        return canvas.getImageData(0, 0, 192, 192).data;
      };
      const [a, b] = [await pixels("icon.svg"), await pixels("icon-192.png")];
      return a.reduce((sum, v, i) => sum + Math.abs(v - b[i]), 0) / a.length;
    });
    assert.ok(apart < 2, `${apart} levels apart`);
    await page.context().close();
  });

  test("the server has the worker asked for again each time", async () => {
    const answer = await fetch(`${base}sw.js`);
    assert.equal(answer.headers.get("cache-control"), "no-cache");
    assert.match(answer.headers.get("content-type"), /^text\/javascript/);
    assert.match(answer.headers.get("content-security-policy"), /worker-src 'self'/);
    assert.equal((await fetch(`${base}manifest.webmanifest`)).headers.get("content-type"), "application/manifest+json");
  });
});
