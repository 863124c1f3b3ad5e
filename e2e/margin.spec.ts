import { expect, test } from "./test";
import { signInAs } from "./people";
import { castingOf, firingOf } from "./rows";

test("a kiln's past firings teach its margin, and everybody can ask why @phone", async ({ page }) => {
  await signInAs(page, "ingrid");
  const main = page.getByRole("main");
  const openKiln = async (name: string) => {
    await page.goto("/workshop/equipment");
    await main.getByRole("link", { name, exact: true }).click();
    await expect(page.getByRole("heading", { name, level: 1 })).toBeVisible();
  };
  await openKiln("Plover");
  await expect(main).toContainText("No firing of this kiln has been opened yet: the usual margin is used.");
  await openKiln("Curlew");
  await expect(main).toContainText("One firing of this kiln has been opened");
  await openKiln("Dunlin");
  await expect(main).toContainText("Learned from 7 firings of this kiln: in 6 of 7 this would have sufficed.");
  const past = main.getByRole("table", { name: "Past firings of this kiln, planned against actual" });
  await expect(past.getByRole("row")).toHaveCount(8);
  await expect(past.getByRole("row", { name: /Two stones/ })).toContainText("short");
  await expect(past.getByRole("row", { name: /Marker stone/ })).toContainText("enough");

  // The plan of a booked firing keeps the margin it was made with.
  await page.goto(`/firings/${await firingOf("Seal, resting")}`);
  await main.getByText("Why?").first().click();
  await expect(main).toContainText("Learned from 3 firings of this kiln: in 2 of 3 this would have sufficed.");

  // Where time is looked for, each kiln's margin has its reasons and their sources.
  await page.goto(`/castings/${await castingOf("Wader")}/find-time`);
  await main.getByText(/Why \d+ h of margin/).first().click();
  await expect(main).toContainText("Elements age and a controller waits for the kiln to follow");
  await expect(main).toContainText("(common practice, no source)");
});
