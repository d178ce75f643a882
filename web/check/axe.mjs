// What axe finds in a page.
import axe from "axe-core";

async function violations(page, rules) {
  await page.evaluate(axe.source);
  return (await page.evaluate((r) => window.axe.run(document, { resultTypes: ["violations"], rules: r }), rules)).violations;
}

const told = (list) => list.map((v) => `${v.id}: ${v.nodes.map((n) => n.target).join(", ")}`);

/** What is serious or critical. */
export async function serious(page) {
  return told((await violations(page, {})).filter((v) => ["serious", "critical"].includes(v.impact)));
}

/** All of it, sizes of targets included (WCAG 2.2, 2.5.8). */
export async function found(page) {
  return told(await violations(page, { "target-size": { enabled: true } }));
}
