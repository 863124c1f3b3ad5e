import type { Page } from "@playwright/test";
import { expect, test } from "./test";
import { otherBrowser } from "./people";
import { firingOf, rows } from "./rows";

async function tick(page: Page, code: string): Promise<void> {
  const line = page.locator(`[data-code="${code}"]`);
  await line.getByRole("checkbox").click();
  await expect(line).toHaveAttribute("data-status", "ticked");
}

test("the check sheet does not let a firing start before what must be true is true", async ({ browser }) => {
  const firingId = await firingOf("Reed bowl");
  const member = await otherBrowser(browser, "mette");
  await member.goto(`/firings/${firingId}/check-sheet`);
  const main = member.getByRole("main");
  await expect(main).toContainText("If anything looks, smells or feels wrong");
  await member.getByRole("button", { name: "Start the firing" }).click();
  await member.getByRole("dialog").getByRole("button", { name: "Start it" }).click();
  await expect(member.getByRole("dialog").getByRole("alert")).toContainText("T2");
  await member.getByRole("dialog").getByRole("button", { name: "Not yet" }).click();

  const blocking = await rows<{ code: string }>("SELECT code FROM check_item WHERE firing_id = $1 AND level = 'block' ORDER BY position", firingId);
  for (const { code } of blocking) if (code !== "T3") await tick(member, code);
  await expect(member.locator('[data-code="L1"]')).toContainText("ticked by Mette Rask, Thu 11 Mar");
  await expect(main).toContainText("One item is open before the firing may start");

  const manager = await otherBrowser(browser, "ingrid");
  await manager.goto(`/firings/${firingId}/check-sheet`);
  const line = manager.locator('[data-code="T3"]');
  await line.getByRole("button", { name: "Override" }).click();
  await manager.getByRole("dialog").getByLabel("Why may the firing go on without it?").fill("Doors stand open and nobody is in the room.");
  await manager.getByRole("dialog").getByRole("button", { name: "Override it" }).click();
  await expect(line).toContainText("overridden by Ingrid Sandal");

  await member.reload();
  await expect(main).toContainText("Everything that must be true is ticked");
  await member.getByRole("button", { name: "Start the firing" }).click();
  await member.getByRole("dialog").getByRole("button", { name: "Start it" }).click();
  await expect(member.getByRole("button", { name: "Mark as opened and unloaded" })).toBeVisible();
  expect(await rows("SELECT status FROM firing WHERE firing_id = $1", firingId)).toEqual([{ status: "started" }]);

  // What let it start stays as it was; the run cannot be moved any more.
  await expect(member.locator('[data-code="L1"]').getByRole("checkbox")).toBeDisabled();
  await member.goto(`/firings/${firingId}`);
  await expect(member.getByRole("link", { name: "Move the run" })).toHaveCount(0);
});

test("a closed sheet cannot change, for anybody", async ({ browser }) => {
  const firingId = await firingOf("Ebb, a half-round");
  const owner = await otherBrowser(browser, "kwame");
  await owner.goto(`/firings/${firingId}/check-sheet`);
  await owner.getByRole("button", { name: "Close the sheet" }).click();
  await owner.getByRole("dialog").getByRole("button", { name: "Close it" }).click();
  await expect(owner.getByRole("main")).toContainText("This sheet is closed");
  const manager = await otherBrowser(browser, "ingrid");
  await manager.goto(`/firings/${firingId}/check-sheet`);
  const boxes = manager.getByRole("checkbox");
  await expect(boxes.first()).toBeVisible();
  for (const box of await boxes.all()) await expect(box).toBeDisabled();
  await expect(manager.getByRole("button", { name: /Override|Start|Close the sheet/ })).toHaveCount(0);
  const behindTheScreen = rows("INSERT INTO check_answer (workshop_id, firing_id, code, kind, member_id, at) SELECT workshop_id, firing_id, code, 'untick', (SELECT member_id FROM firing f WHERE f.firing_id = i.firing_id), now() FROM check_item i WHERE firing_id = $1 LIMIT 1", firingId);
  await expect(behindTheScreen).rejects.toThrow(/closed/);
});

test("the sheet can be read, ticked and printed with its cautions @phone", async ({ browser, page }, info) => {
  const member = await otherBrowser(browser, "kwame", page);
  await member.goto(`/firings/${await firingOf("Kelp stone")}/check-sheet`);
  const code = info.project.name === "phone" ? "W1" : "W2";
  await tick(member, code);
  await member.locator(`[data-code="${code}"]`).getByRole("checkbox").click();
  await expect(member.locator(`[data-code="${code}"]`)).not.toHaveAttribute("data-status", "ticked");
  const caution = member.getByText("This list supports, and does not replace").first();
  await expect(caution).toBeVisible();
  await member.emulateMedia({ media: "print" });
  await expect(caution).toBeVisible();
  await expect(member.locator(`[data-code="${code}"]`)).toBeVisible();
  await expect(member.getByRole("button", { name: "Start the firing" })).toBeHidden();
});
