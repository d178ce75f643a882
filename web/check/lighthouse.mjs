// Lighthouse on the start page: access and good practice in full, and a layout
// that stays where it is while the machine arrives.
import assert from "node:assert/strict";
import { test } from "node:test";
import { launch } from "chrome-launcher";
import lighthouse from "lighthouse";
import { base, chrome, flags } from "./browser.mjs";

for (const folder of ["", "de/"]) test(`Lighthouse finds access and good practice whole, and nothing that jumps, at /${folder}`, async () => {
  const own = await launch({ chromePath: chrome, chromeFlags: ["--headless", ...flags], logLevel: "silent" });
  try {
    const { lhr } = await lighthouse(base + folder, { port: own.port, output: "json", logLevel: "silent" }, {
      extends: "lighthouse:default",
      settings: {
        onlyCategories: ["accessibility", "best-practices"], onlyAudits: ["cumulative-layout-shift"],
        formFactor: "desktop", screenEmulation: { mobile: false, width: 1280, height: 720, deviceScaleFactor: 1, disabled: false },
        throttlingMethod: "provided", maxWaitForLoad: 60_000,
      },
    });
    const failed = Object.values(lhr.audits).filter((a) => a.score !== null && a.score < 1 && a.id !== "cumulative-layout-shift").map((a) => `${a.id}: ${JSON.stringify(a.details?.items ?? a.displayValue)}`);
    assert.deepEqual(failed, []);
    for (const name of ["accessibility", "best-practices"]) assert.equal(lhr.categories[name].score, 1, name);
    // The design's goal.
    assert.ok(lhr.audits["cumulative-layout-shift"].numericValue <= 0.05, lhr.audits["cumulative-layout-shift"].displayValue);
  } finally {
    own.kill();
  }
});
