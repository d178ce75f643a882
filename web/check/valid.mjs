// What the checker of markup finds in a page.
import { HtmlValidate, formatterFactory } from "html-validate";

const validator = new HtmlValidate({
  extends: ["html-validate:recommended"],
  rules: {
    // How the browser spells attributes, and what scripts set, is not the page's.
    "no-trailing-whitespace": "off", "void-style": "off", "attribute-empty-style": "off", "attribute-boolean-style": "off", "no-inline-style": "off", "no-implicit-input-type": "off",
    "valid-id": ["error", { relaxed: true }],
  },
});

/** What is wrong with the page as it stands, without what it hides. */
export async function invalid(page) {
  const text = await page.evaluate(() => {
    const root = document.documentElement.cloneNode(true);
    for (const hidden of root.querySelectorAll("#machine[hidden], #room[hidden]")) hidden.remove();
    return `<!DOCTYPE html>\n${root.outerHTML}`;
  });
  const report = await validator.validateString(text, page.url());
  return report.valid ? "" : formatterFactory("text")(report.results);
}
