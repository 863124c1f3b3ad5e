import { bookOffered, describeSmall } from "./describe";
import { expect, test } from "./test";
import { signInAs } from "./people";
import { firingOf, rows } from "./rows";

test("a member whose casting grew compares both plans and takes the new one", async ({ page }) => {
  const title = "Grown shell";
  await signInAs(page, "ingrid");
  await describeSmall(page, title);
  const casting = page.url();
  await bookOffered(page);
  const firingId = await firingOf(title);
  const held = async () => Number((await rows<{ h: string }>("SELECT extract(epoch FROM ends_at - starts_at) / 3600 AS h FROM booking WHERE firing_id = $1 AND standing AND purpose = 'kiln'", firingId))[0]?.h);
  const planned = async () => Number((await rows<{ h: string }>("SELECT p.outputs->'reservation'->>'hours' AS h FROM firing f JOIN plan p USING (workshop_id, plan_id) WHERE f.firing_id = $1", firingId))[0]?.h);
  const [before, plannedBefore] = [await held(), await planned()];

  await page.goto(casting);
  await page.getByRole("textbox", { name: "Height" }).fill("95");
  await page.getByRole("button", { name: "Save changes" }).click();
  await expect(page.getByRole("main")).toContainText(/saved/i);
  await page.goto(`/firings/${firingId}`);
  await page.getByRole("link", { name: "Compare the plans" }).click();
  await expect(page.getByRole("heading", { name: "Plan anew", level: 1 })).toBeVisible();
  await expect(page.getByRole("table", { name: /The plan as booked/ })).toContainText("Kiln held");
  await expect(page.getByRole("img", { name: /Planned anew: .* As booked: / }).first()).toBeVisible();
  expect(await held()).toBe(before);
  await page.getByRole("button", { name: "Take the new plan" }).click();
  await page.waitForURL(new RegExp(`/firings/${firingId}$`));
  await expect(page.getByRole("main")).not.toContainText("changed since");
  expect(await planned()).toBeGreaterThan(plannedBefore);
  // The kiln is held until somebody is there to unload it, which may be the same hour.
  expect(await held()).toBeGreaterThanOrEqual(before);
  const [audit] = await rows<{ n: number }>("SELECT count(*)::int AS n FROM audit WHERE subject_id = $1 AND action = 'replan-run'", firingId);
  expect(audit?.n).toBe(1);
});
