import { expect, test } from "./test";
import { signInAs } from "./people";
import { castingOf, firingOf, rows } from "./rows";

test("a member goes from a wax on the bench to a booked run and back @phone", async ({ page }, info) => {
  const title = `Shell ${info.project.name}`;
  await signInAs(page, "mette");
  await page.goto("/castings/new");
  const answer = page.getByRole("region", { name: "The answer" });
  await expect(answer).toContainText("Still needed");
  await page.getByRole("textbox", { name: "Title" }).fill(title);
  await page.getByLabel("Which glass").selectOption({ label: "Lead crystal, 45 % lead oxide" });
  await page.getByRole("textbox", { name: "Width" }).fill("120");
  await page.getByRole("textbox", { name: "Depth" }).fill("90");
  await page.getByRole("textbox", { name: "Height" }).fill("70");
  await expect(answer).toContainText("kiln-weeks");
  await expect(answer).toContainText("of glass to order");
  await expect(answer).toContainText("all the glass put in");
  await expect(answer).toContainText("wet mould");
  await expect(answer.getByRole("table", { name: "Stages of the firing plan" })).toContainText("Slow cool");

  // The answer follows what is typed: more glass for a wider piece, a heavier mould for a thicker wall.
  const glass = answer.getByText(/^[\d.]+ ?kg$/).first();
  const thin = (await glass.textContent()) ?? "";
  await page.getByRole("textbox", { name: "Width" }).fill("140");
  await expect(glass).not.toHaveText(thin);
  await page.getByRole("textbox", { name: "Width" }).fill("120");
  await expect(glass).toHaveText(thin);

  // A wall of 5 mm is refused by name and range, and nothing typed is lost.
  await page.getByRole("textbox", { name: "Wall" }).fill("5");
  await expect(page.getByRole("main")).toContainText(/10 to 150 mm/);
  await page.getByRole("textbox", { name: "Wall" }).fill("35");
  await expect(page.getByRole("main")).not.toContainText(/10 to 150 mm/);

  // An impossible wish says what stands in the way.
  await page.getByRole("textbox", { name: "Height" }).fill("450");
  await expect(answer).toContainText(/no kiln is \d+ mm tall inside; the tallest is 620 mm/i);
  await page.getByRole("textbox", { name: "Height" }).fill("70");
  await page.getByRole("button", { name: "Save the casting" }).click();

  await page.waitForURL(/\/castings\/[0-9a-f-]{36}/);
  await page.getByRole("link", { name: "Find time" }).first().click();
  await expect(page.getByRole("heading", { name: "Find time", level: 1 })).toBeVisible();
  await expect(page.getByRole("main")).toContainText("Steam-out");
  const offered = await page.locator('input[name="kilnFrom"]').first().inputValue();
  await page.getByRole("button", { name: "Book this run" }).first().click();

  await page.waitForURL(/\/firings\//);
  const firing = page.getByRole("main");
  for (const part of ["Steam-out", "Load", "Kiln", "Unload"]) await expect(firing).toContainText(part);
  const firingId = await firingOf(title);
  expect(await rows("SELECT 1 FROM booking WHERE firing_id = $1 AND standing", firingId)).toHaveLength(4);

  // Wall, calendar, and the list of castings show it, and lead to it.
  const [kiln] = await rows<{ day: string }>("SELECT to_char(starts_at AT TIME ZONE 'Europe/Copenhagen', 'YYYY-MM-DD') AS day FROM booking WHERE firing_id = $1 AND purpose = 'kiln'", firingId);
  await page.goto(`/calendar?of=mine&day=${kiln?.day ?? ""}`);
  await page.getByText(new RegExp(`Kiln: ${title}`)).first().click();
  await page.waitForURL(`**/firings/${firingId}`);
  await page.goto("/castings");
  await expect(page.getByRole("main")).toContainText(title);
  await page.goto("/wall");
  await page.getByRole("link", { name: new RegExp(title) }).first().click();
  await page.waitForURL(`**/firings/${firingId}`);

  await page.goto(`/firings/${firingId}`);
  await page.getByRole("button", { name: "Cancel the run" }).click();
  await page.getByRole("dialog").getByRole("button", { name: "Cancel the run" }).click();
  await expect(page.getByRole("main")).toContainText("Firing, cancelled");
  expect(await rows("SELECT 1 FROM booking WHERE firing_id = $1 AND standing", firingId)).toHaveLength(0);

  // All of it is free again: gone from the wall, and the same hours are offered anew.
  await page.goto("/wall");
  await expect(page.getByRole("heading", { name: "Kiln wall", level: 1 })).toBeVisible();
  await expect(page.getByRole("main")).not.toContainText(title);
  await page.goto(`/castings/${await castingOf(title)}/find-time`);
  await expect(page.getByRole("button", { name: "Book this run" }).first()).toBeVisible();
  expect(await page.locator('input[name="kilnFrom"]').first().inputValue()).toBe(offered);
});

test("a run is moved as a whole", async ({ page }) => {
  await signInAs(page, "mette");
  const firingId = await firingOf("Open marsh, a relief");
  const before = await rows<{ starts_at: Date }>("SELECT starts_at FROM booking WHERE firing_id = $1 AND standing AND purpose = 'kiln'", firingId);
  await page.goto(`/firings/${firingId}/move`);
  await page.getByRole("radio").nth(2).check();
  await page.getByRole("button", { name: "Move the whole run" }).click();
  await page.waitForURL(`**/firings/${firingId}`);
  const after = await rows<{ starts_at: Date }>("SELECT starts_at FROM booking WHERE firing_id = $1 AND standing AND purpose = 'kiln'", firingId);
  expect(after[0]?.starts_at).not.toEqual(before[0]?.starts_at);
  expect(await rows("SELECT 1 FROM booking WHERE firing_id = $1 AND standing", firingId)).toHaveLength(4);
});

test("the calendar shows month, week and day, and leads to the firing", async ({ page }) => {
  await signInAs(page, "mette");
  await page.goto("/calendar");
  const event = page.getByText(/Kiln: Reed bowl/).first();
  await expect(event).toBeVisible();
  for (const view of ["Week", "Day", "Month"]) {
    await page.getByRole("button", { name: view, exact: true }).or(page.getByRole("link", { name: view, exact: true })).or(page.getByRole("radio", { name: view, exact: true })).first().click();
    await expect(page.getByRole("main")).toContainText(/Reed bowl|Kelp stone|Long shore block/);
  }
  await page.getByText(/Kiln: Reed bowl/).first().click();
  await page.waitForURL(/\/firings\//);
  await expect(page.getByRole("heading", { level: 1 })).toContainText("Reed bowl");
});
