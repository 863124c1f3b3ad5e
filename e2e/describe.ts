import type { Page } from "@playwright/test";

/** Describes a small casting that fits every kiln, and saves it. */
export async function describeSmall(page: Page, title: string): Promise<void> {
  await page.goto("/castings/new");
  await page.getByRole("textbox", { name: "Title" }).fill(title);
  await page.getByLabel("Which glass").selectOption({ label: "Lead crystal, 45 % lead oxide" });
  await page.getByRole("textbox", { name: "Width" }).fill("90");
  await page.getByRole("textbox", { name: "Depth" }).fill("80");
  await page.getByRole("textbox", { name: "Height" }).fill("60");
  await page.getByRole("button", { name: "Save the casting" }).click();
  await page.waitForURL(/\/castings\/[0-9a-f-]{36}/);
}
