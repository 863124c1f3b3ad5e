import { mkdirSync } from "node:fs";
import AxeBuilder from "@axe-core/playwright";
import { expect, test } from "./test";
import { demoIds, filled } from "./pages";
import { signInAs } from "./people";

const SCREENS = [
  "/", "/castings", "/castings/new", "/castings/[castingId]", "/castings/[castingId]/find-time", "/firings/[firingId]", "/firings/[firingId]/move",
  "/firings/[firingId]/check-sheet", "/wall", "/calendar", "/clashes", "/lifts", "/notices", "/profile", "/workshop/people", "/workshop/equipment",
  "/workshop/equipment/[equipmentId]", "/workshop/hours", "/workshop/power", "/workshop/record",
];

for (const colorScheme of ["light", "dark"] as const) {
  test(`every screen is accessible and fits its width, ${colorScheme} @phone`, async ({ page }, info) => {
    test.slow();
    await page.emulateMedia({ colorScheme });
    await signInAs(page, "ingrid");
    const ids = await demoIds();
    const folder = info.project.outputDir.replace(/\/$/, "") + "/screens";
    mkdirSync(folder, { recursive: true });
    for (const screen of SCREENS) {
      await page.goto(filled(screen, ids));
      await expect(page.locator("main h1").first()).toBeVisible();
      await expect(page.getByText(/^(Fetching|Looking)/)).toHaveCount(0);
      const { violations } = await new AxeBuilder({ page }).analyze();
      const serious = violations.filter(({ impact }) => impact === "serious" || impact === "critical");
      expect({ screen, serious: serious.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 160) ?? ""}`) }).toEqual({ screen, serious: [] });
      const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      expect({ screen, over: Math.max(0, over) }).toEqual({ screen, over: 0 });
      await page.screenshot({ path: `${folder}/${screen.replaceAll(/\W+/g, "-")}-${info.project.name}-${colorScheme}.png`, fullPage: true });
    }
  });
}

test("the picture for the first page of the documents", async ({ page }) => {
  test.skip(process.env["LEHRBOOK_PICTURES"] !== "1", "only when the pictures are to be made anew");
  await signInAs(page, "mette");
  await page.setViewportSize({ width: 1280, height: 900 });
  await page.goto("/wall");
  await expect(page.locator("main h1")).toBeVisible();
  await page.screenshot({ path: "e2e/pictures/kiln-wall.png" });
});
