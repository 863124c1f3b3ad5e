import { mkdirSync } from "node:fs";
import AxeBuilder from "@axe-core/playwright";
import { expect, type Page, type TestInfo } from "@playwright/test";

/** Goes to a screen, finds nothing seriously inaccessible and nothing wider than the window; with LEHRBOOK_PICTURES=1 its picture is kept. */
export async function look(page: Page, screen: string, name: string, info: TestInfo): Promise<void> {
  await page.goto(screen);
  await expect(page.locator("main h1").first()).toBeVisible();
  await expect(page.getByText(/^(Fetching|Looking|Drawing|Working)/)).toHaveCount(0);
  await lookAtThis(page, name, info);
}

/** The same for a screen as it stands now, after somebody has done something on it. */
export async function lookAtThis(page: Page, name: string, info: TestInfo): Promise<void> {
  // A colour on its way to another is neither.
  await page.evaluate(() => document.getAnimations().forEach((one) => one.effect?.getComputedTiming().endTime !== Infinity && one.finish()));
  const dark = await page.evaluate(() => matchMedia("(prefers-color-scheme: dark)").matches);
  // One page without frames, and only what is wrong of it: a third of the time of all that axe can tell.
  const axe = new AxeBuilder({ page }).setLegacyMode(true).options({ resultTypes: ["violations"] });
  // In the dark nothing but the colours is different.
  if (dark) axe.withRules(["color-contrast"]);
  const { violations } = await axe.analyze();
  const serious = violations.filter(({ impact }) => impact === "serious" || impact === "critical");
  expect({ screen: name, serious: serious.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 160) ?? ""}`) }).toEqual({ screen: name, serious: [] });
  const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  expect({ screen: name, over: Math.max(0, over) }).toEqual({ screen: name, over: 0 });
  if (process.env["LEHRBOOK_PICTURES"] !== "1") return;
  const folder = `${info.project.outputDir.replace(/\/$/, "")}/screens`;
  mkdirSync(folder, { recursive: true });
  const file = name.replaceAll(/\W+/g, "-").replaceAll(/^-|-$/g, "") || "home";
  await page.screenshot({ path: `${folder}/${file}-${dark ? "dark" : "light"}-${info.project.name}.png`, fullPage: true });
}
