// What axe finds serious or critical in a page.
import axe from "axe-core";

export async function serious(page) {
  await page.evaluate(axe.source);
  const result = await page.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
  return result.violations.filter((v) => ["serious", "critical"].includes(v.impact)).map((v) => `${v.id}: ${v.nodes.map((n) => n.target).join(", ")}`);
}
