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

/** Books the run that is offered first for the casting on the page; where another test takes those hours at this moment, the one that is offered then. */
export async function bookOffered(page: Page): Promise<void> {
  await page.getByRole("link", { name: "Find time" }).first().click();
  for (let tries = 1; ; tries += 1) {
    await page.getByRole("button", { name: "Book this run" }).last().click();
    const refused = page.getByText("Nothing was booked");
    const end = await Promise.race([page.waitForURL(/\/firings\//).then(() => "booked"), refused.waitFor({ timeout: 60_000 }).then(() => "refused", () => "neither")]);
    if (end === "booked") return;
    if (tries === 3) throw new Error(`not booked at the third try: ${end}`);
    await page.reload();
  }
}
