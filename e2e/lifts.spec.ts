import { expect, test } from "./test";
import { signInAs } from "./people";

test("an assistant reads the heavy lifts of the next staffed day, and prints them on one page @phone", async ({ page }) => {
  await signInAs(page, "tomasz");
  await page.goto("/lifts");
  const main = page.getByRole("main");
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("Friday, 12 March 2027");
  await expect(main).toContainText("The next staffed day.");
  await expect(main).toContainText("Kelp stone");
  await expect(main.getByRole("table", { name: "Heavy" })).toContainText("kg");
  await expect(main).toContainText("This list supports, and does not replace");
  const masses = (await main.getByRole("table", { name: "Heavy" }).locator("strong").allInnerTexts()).map((text) => Number(text.replace(/ kg$/, "")));
  expect(masses.length).toBeGreaterThan(0);
  expect(masses).toEqual([...masses].sort((a, b) => b - a));
  const pdf = await page.pdf({ format: "A4" });
  expect(pdf.toString("latin1").match(/\/Type\s*\/Page[^s]/g)).toHaveLength(1);

  await page.emulateMedia({ media: "print" });
  await expect(page.getByRole("navigation").first()).toBeHidden();
  await expect(page.getByRole("button", { name: "Show" })).toBeHidden();
  await page.emulateMedia({ media: "screen" });

  await page.getByRole("link", { name: "Today" }).click();
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("Thursday, 11 March 2027");
  await expect(main).toContainText("Reed bowl");
  await page.goto("/lifts?day=2027-03-14");
  await expect(main).toContainText("No lifts on this day");
  await expect(main).toContainText("Nobody is on duty");
  await page.goto("/lifts?day=2027-13-99");
  await expect(main).toContainText("is not a date");
});
