import type { Page, TestInfo } from "@playwright/test";
import { readIcs } from "@/tests/helpers/read-ics";
import { lookAtThis } from "./look";
import { otherBrowser, signInAs } from "./people";
import { rows } from "./rows";
import { expect, test } from "./test";

const shown = (page: Page) => page.getByRole("textbox", { name: /^Address/ });

async function lookInBothLights(page: Page, name: string, info: TestInfo): Promise<void> {
  for (const colorScheme of ["light", "dark"] as const) {
    await page.emulateMedia({ colorScheme });
    await lookAtThis(page, name, info);
  }
}

/** As a calendar program asks: without a cookie. */
async function fetched(address: string, init?: RequestInit) {
  const answer = await fetch(address, init);
  return { status: answer.status, type: answer.headers.get("content-type"), etag: answer.headers.get("etag"), text: await answer.text() };
}

test("a member reads their runs in a calendar program, makes the address anew and revokes it @phone", async ({ page }, info) => {
  // At both widths at once, so each has somebody of their own.
  const name = info.project.name === "phone" ? "kwame" : "mette";
  await signInAs(page, name);
  await page.goto("/profile");
  const panel = page.getByRole("main").locator("section").filter({ has: page.getByRole("heading", { name: "My calendar" }) });
  await expect(panel).toContainText("No address yet");
  await panel.getByRole("button", { name: "Make an address" }).click();
  await expect(panel).toContainText("Copy it now: it cannot be shown again.");
  await expect(panel).toContainText("No calendar program has read it yet.");
  const first = await shown(page).inputValue();
  await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
  await panel.getByRole("button", { name: "Copy" }).click();
  await expect(panel).toContainText("Copied.");
  expect(await page.evaluate(() => navigator.clipboard.readText())).toBe(first);
  await lookInBothLights(page, "my calendar, made", info);

  const calendar = await fetched(first);
  expect(calendar).toMatchObject({ status: 200, type: "text/calendar; charset=utf-8" });
  const told = readIcs(calendar.text);
  const own = await rows<{ title: string }>("SELECT c.title FROM casting c JOIN member m USING (workshop_id, member_id) WHERE m.email = $1", `${name}@saltmarsh.example`);
  expect(told.length).toBeGreaterThan(3);
  for (const { summary, zone } of told) expect({ own: own.some(({ title }) => summary.includes(title)), zone }).toEqual({ own: true, zone: "Europe/Copenhagen" });
  expect((await fetched(first, { headers: { "If-None-Match": calendar.etag ?? "" } })).status).toBe(304);
  expect(await fetched(first, { method: "HEAD" })).toMatchObject({ status: 200, text: "", etag: calendar.etag });

  // What was shown once is not there any more.
  await page.reload();
  await expect(panel).toContainText("A calendar program read it in the hour from");
  await expect(shown(page)).toHaveCount(0);
  await panel.getByRole("button", { name: "Make a new address" }).click();
  await page.getByRole("dialog").getByRole("button", { name: "Make a new address" }).click();
  await expect(panel).toContainText("the old one opens nothing any more");
  const second = await shown(page).inputValue();
  const gone = await fetched(first);
  expect([gone.status, (await fetched(second)).status]).toEqual([404, 200]);
  expect(gone.text).toBe((await fetched(first.replace(/[\w-]{43}/, "x".repeat(43)))).text);

  await panel.getByRole("button", { name: "Revoke it" }).click();
  await page.getByRole("dialog").getByRole("button", { name: "Revoke it" }).click();
  await expect(panel).toContainText("The address opens nothing any more.");
  await expect(panel).toContainText("No address yet");
  expect((await fetched(second)).status).toBe(404);
});

test("a manager gives a kiln's calendar an address, and a member finds none to give @phone", async ({ page, browser }, info) => {
  await signInAs(page, "ingrid");
  const [kiln] = await rows<{ id: string }>("SELECT equipment_id AS id FROM equipment WHERE name = $1", info.project.name === "phone" ? "Curlew" : "Heron");
  await page.goto(`/workshop/equipment/${kiln?.id ?? ""}`);
  const panel = page.getByRole("main").locator("section").filter({ has: page.getByRole("heading", { name: "Its calendar elsewhere" }) });
  await panel.getByRole("button", { name: "Make an address" }).click();
  const address = await shown(page).inputValue();
  await lookInBothLights(page, "kiln's calendar, made", info);
  const told = readIcs((await fetched(address)).text);
  const bookings = await rows<{ entry_id: string; status: string }>(
    "SELECT b.entry_id, f.status FROM booking b JOIN firing f USING (workshop_id, firing_id) WHERE b.equipment_id = $1 AND b.standing AND b.ends_at > '2027-03-11T09:40:00Z'::timestamptz - interval '90 days'",
    kiln?.id,
  );
  const uids = told.map(({ uid }) => uid);
  // What is only held may be gone tomorrow, so no other calendar is told of it.
  for (const { entry_id, status } of bookings) expect({ entry_id, told: uids.includes(`${entry_id}@lehrbook.invalid`) }).toEqual({ entry_id, told: status !== "held" });
  const member = await otherBrowser(browser, "mette", page);
  await member.goto(page.url());
  await expect(member.getByRole("heading", { level: 1 })).toHaveText("Not for your role");
  await panel.getByRole("button", { name: "Revoke it" }).click();
  await page.getByRole("dialog").getByRole("button", { name: "Revoke it" }).click();
  await expect(panel).toContainText("The address opens nothing any more.");
  expect((await fetched(address)).status).toBe(404);
});
