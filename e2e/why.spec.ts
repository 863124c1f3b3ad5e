import { expect, test } from "./test";
import { signInAs } from "./people";
import { castingOf, firingOf, rows } from "./rows";

test("a member asks why, tries a thinner piece, and takes it back into the casting @phone", async ({ page }) => {
  await signInAs(page, "mette");
  const castingId = await castingOf("Wader");
  const saved = await rows<{ input: unknown }>("SELECT input FROM casting WHERE casting_id = $1", castingId);
  await page.goto(`/castings/${castingId}`);
  await page.getByRole("link", { name: "Why so long?" }).click();
  await expect(page.getByRole("heading", { name: "Why so long", level: 1 })).toBeVisible();
  const main = page.getByRole("main");

  // Every stage gives its reason, and the glass is followed through it.
  await expect(page.getByRole("table", { name: "Stages of the firing plan" })).toContainText("Slow cool");
  await expect(page.getByRole("heading", { name: "Across the piece" })).toBeVisible();
  const moment = page.getByRole("slider", { name: "Moment of the firing" });
  await page.getByRole("button", { name: "Slow cool begins" }).click();
  const before = await moment.getAttribute("aria-valuetext");
  await moment.press("ArrowRight");
  await expect(moment).not.toHaveAttribute("aria-valuetext", before ?? "");
  await page.getByRole("button", { name: "From Soak on" }).click();
  await page.getByText("The same as a table").click();
  await expect(page.getByRole("table", { name: "Kiln, glass and stress through the firing" })).toContainText("no glass yet");
  await expect(main).toContainText("Seeds and inclusions", { ignoreCase: true });

  // A thinner piece takes fewer kiln-weeks, at once; what cannot be is said.
  const effect = page.getByRole("status").filter({ hasText: "kiln-weeks" });
  await expect(effect).toContainText("as it is now");
  await page.getByRole("textbox", { name: "Thickest part" }).fill("60");
  await expect(effect).toContainText(/−0\.\d kiln-weeks, −\d+ h/);
  await page.getByRole("textbox", { name: "Thickest part" }).fill("1");
  await expect(main).toContainText(/2 to 500 mm/);
  await page.getByRole("textbox", { name: "Thickest part" }).fill("60");
  await page.getByRole("radio", { name: /^My own limits/ }).check();
  await expect(main).toContainText(/saves \d+ h \(.+ kiln-weeks\) against careful/);
  await page.getByRole("link", { name: "Take these into the casting" }).click();

  // It stands in the form, and nothing has been saved.
  await page.waitForURL(/piece\.thickestMm=60/);
  await expect(page.getByRole("textbox", { name: "Thickest part" })).toHaveValue("60");
  await expect(page.getByRole("textbox", { name: "Largest permanent tension" })).toHaveValue("0.8");
  await expect(page.getByRole("main")).toContainText("not saved yet");
  expect(await rows("SELECT input FROM casting WHERE casting_id = $1", castingId)).toEqual(saved);
});

test("a firing says why by the clock it was booked for", async ({ page }) => {
  await signInAs(page, "tomasz");
  await page.goto(`/firings/${await firingOf("Seal, resting")}`);
  await page.getByRole("link", { name: "Why so long?" }).click();
  await expect(page.getByRole("heading", { name: "Across the piece" })).toBeVisible();
  await expect(page.getByRole("slider", { name: "Moment of the firing" })).toHaveAttribute("aria-valuetext", /^\w{3} \d+ \w{3}, \d\d:\d\d: kiln \d+ °C/);
  await page.getByRole("textbox", { name: "Mould wall" }).fill("60");
  await expect(page.getByRole("status").filter({ hasText: "kiln-weeks" })).toContainText(/\+\d/);
  await expect(page.getByRole("link", { name: "Take these into the casting" })).toHaveCount(0);
});
