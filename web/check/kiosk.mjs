// The program that holds the site: in an empty folder, with nothing but itself.
import assert from "node:assert/strict";
import { execFileSync, spawn, spawnSync } from "node:child_process";
import { copyFileSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, describe, test } from "node:test";
import { open } from "./browser.mjs";

const root = new URL("../..", import.meta.url).pathname;

describe("the program for a kiosk", () => {
  let folder, program, address, said = "";
  before(async () => {
    folder = mkdtempSync(join(tmpdir(), "wheelroom-"));
    execFileSync("go", ["build", "-tags", "dist", "-o", "web/check/out/wheelroom-kiosk", "./web/cmd/wheelroom-kiosk"], { cwd: root });
    copyFileSync(`${root}web/check/out/wheelroom-kiosk`, join(folder, "wheelroom-kiosk"));
    program = spawn("./wheelroom-kiosk", ["--port", "0"], { cwd: folder, stdio: ["ignore", "pipe", "inherit"] });
    await new Promise((resolve, reject) => {
      program.stdout.on("data", (text) => { said += text; if (said.includes("chromium --kiosk")) resolve(); });
      program.once("exit", (code) => reject(new Error(`it ended with ${code}`)));
    });
    address = said.split("\n")[0];
  });
  after(() => { program?.kill(); rmSync(folder, { recursive: true, force: true }); });

  test("prints the page's address and the command that shows it", () => {
    assert.match(address, /^http:\/\/127\.0\.0\.1:\d+\/\?view=exhibit&kiosk=1$/);
    assert.ok(said.includes(`'${address}'`));
  });

  test("sends the page and the program with their types, compressed, from its own origin alone", async () => {
    for (const [path, type] of [["", "text/html"], ["stage.wasm", "application/wasm"], ["sw.js", "text/javascript"]]) {
      const answer = await fetch(new URL(path, address), { headers: { "accept-encoding": "br" } });
      assert.equal(answer.status, 200, path);
      assert.ok(answer.headers.get("content-type").startsWith(type), path);
      assert.equal(answer.headers.get("content-encoding"), "br", path);
      await answer.arrayBuffer();
    }
    const asked = new Set();
    let beat;
    const page = await open(address, { ready: false, before: (p) => {
      p.on("request", (r) => asked.add(new URL(r.url()).origin));
      beat = p.waitForResponse((answer) => answer.request().method() === "POST" && new URL(answer.url()).pathname === "/alive", { timeout: 60_000 });
    } });
    await page.waitForFunction(() => globalThis.wheelroom?.ready.then(() => true), undefined, { timeout: 60_000 });
    await page.evaluate(() => wheelroom.advance(1));
    assert.equal((await beat).status(), 204, "its heart is heard");
    assert.deepEqual([...asked], [new URL(address).origin]);
    assert.deepEqual(page.faults, []);
    await page.context().close();
    assert.deepEqual(readdirSync(folder), ["wheelroom-kiosk"], "it writes nothing");
  });

  test("says so when its port is taken", () => {
    const { status, stderr } = spawnSync("./wheelroom-kiosk", ["--port", new URL(address).port], { cwd: folder, encoding: "utf8" });
    assert.equal(status, 1);
    assert.match(stderr, /is taken/);
  });
});
