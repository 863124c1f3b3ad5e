import { expect, test } from "./test";
import { describeSmall } from "./describe";
import { look } from "./look";
import { otherBrowser } from "./people";
import { castingOf, firingOf, rows } from "./rows";

test("the manager sees each clash, moves and releases runs with a reason, and the members see it", async ({ browser }, info) => {
  const page = await otherBrowser(browser, "ingrid");
  await page.goto("/clashes");
  const main = page.getByRole("main");
  for (const kind of ["Crowded", "Out of service", "Overrun"]) await expect(main).toContainText(kind);
  for (const screen of ["/", "/clashes"]) await look(page, screen, `${screen} with clashes`, info);

  // The same weeks: a reason too short is refused, a proper one releases the run, and the wish is booked.
  const lantern = await firingOf("Lantern foot");
  await page.locator(`[data-firing="${lantern}"]`).getByRole("button", { name: "Release the run" }).click();
  const dialog = page.getByRole("dialog");
  await dialog.getByLabel("Reason").fill("short");
  await dialog.getByRole("button", { name: "Release it" }).click();
  await expect(dialog.getByRole("alert")).toContainText("10 characters");
  await dialog.getByLabel("Reason").fill("The other piece has a fixed opening.");
  await dialog.getByRole("button", { name: "Release it" }).click();
  await expect(dialog).toBeHidden();
  expect(await rows("SELECT 1 FROM booking WHERE firing_id = $1 AND standing", lantern)).toEqual([]);
  await expect(main).not.toContainText("Lantern foot");
  const wish = page.locator("[data-ask]").filter({ hasText: "Buoy" });
  await wish.getByRole("button", { name: "Book the ask" }).click();
  await dialog.getByRole("button", { name: "Book them" }).click();
  await expect(wish).toHaveCount(0);
  expect(await rows("SELECT 1 FROM booking WHERE firing_id = $1 AND standing", await firingOf("Buoy"))).toHaveLength(4);

  // The firing that runs over: nothing follows it, so its booking is lengthened.
  const block = await firingOf("Long shore block");
  await page.locator(`[data-firing="${block}"]`).getByRole("link", { name: "Lengthen its booking" }).click();
  await page.waitForURL(`**/firings/${block}`);
  await page.getByRole("button", { name: "Lengthen the booking" }).click();
  await expect(main).toContainText("The booking is longer now");
  await page.goto("/clashes");
  await expect(page.getByRole("heading", { name: "Clashes", level: 1 })).toBeVisible();
  await expect(main).not.toContainText("Overrun");
  const record = await rows<{ action: string }>("SELECT DISTINCT action FROM audit WHERE member_id = (SELECT member_id FROM member WHERE email = 'ingrid@saltmarsh.example') ORDER BY 1");
  expect(record.map(({ action }) => action)).toEqual(expect.arrayContaining(["book-ask", "lengthen-booking", "release-run"]));

  const yuki = await otherBrowser(browser, "yuki");
  await yuki.goto("/notices");
  await expect(yuki.getByRole("main")).toContainText("The other piece has a fixed opening.");
  const kwame = await otherBrowser(browser, "kwame");
  await kwame.goto("/notices");
  await expect(kwame.getByRole("main")).toContainText("Buoy");
});

test("a member asks for weeks that others have, and the manager declines with a reason @phone", async ({ browser, page }, info) => {
  const title = `Wished for ${info.project.name}`;
  const odile = await otherBrowser(browser, "odile", page);
  await describeSmall(odile, title);
  await odile.goto(`/castings/${await castingOf(title)}/find-time`);
  const [seal] = await rows<{ day: string; kiln: string }>(
    "SELECT to_char(b.starts_at, 'YYYY-MM-DD') AS day, e.name AS kiln FROM booking b JOIN equipment e USING (workshop_id, equipment_id) WHERE b.firing_id = $1 AND b.purpose = 'kiln' AND b.standing",
    await firingOf("Seal, resting"),
  );
  await odile.getByLabel("Kiln", { exact: true }).selectOption({ label: seal?.kiln ?? "" });
  await odile.getByLabel("From", { exact: true }).fill(seal?.day ?? "");
  await odile.getByLabel("Why it matters").fill("The buyer travels then.");
  await odile.getByRole("button", { name: "Ask for time" }).click();
  await expect(odile.getByRole("main")).toContainText("Your ask");

  const reason = `Those weeks are promised to Yuki (${info.project.name}).`;
  const ingrid = await otherBrowser(browser, "ingrid", page);
  for (const colorScheme of ["light", "dark"] as const) {
    await ingrid.emulateMedia({ colorScheme });
    await look(ingrid, "/clashes", "/clashes with an ask", info);
  }
  const wish = ingrid.locator("[data-ask]").filter({ hasText: title });
  await wish.getByRole("button", { name: "Decline the ask" }).click();
  await ingrid.getByRole("dialog").getByLabel("Reason").fill(reason);
  await ingrid.getByRole("dialog").getByRole("button", { name: "Decline it" }).click();
  await expect(ingrid.getByRole("main")).not.toContainText(title);
  await odile.goto("/notices");
  await expect(odile.getByRole("main")).toContainText(reason);
  await look(odile, "/notices", "/notices with some", info);
});
