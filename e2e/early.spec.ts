import type { Browser, Page } from "@playwright/test";
import { SCENARIO_PASSWORD, makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";
import { describeSmall } from "./describe";
import { holdScripts } from "./held-scripts";
import { newBrowser, signIn } from "./people";
import { castingOf, firingOf, rows } from "./rows";
import { expect, test } from "./test";

/** What is filled in before a page's scripts have come stays on screen and is what is sent. */

let shed: MadeWorkshop;

test.beforeAll(async () => {
  shed = await makeWorkshop(process.env["LEHRBOOK_E2E_DATABASE_URL"] ?? "", { name: "Slow Line Glass Hut" });
});

async function signedIn(browser: Browser, who: "member" | "manager"): Promise<Page> {
  const page = await newBrowser(browser);
  await signIn(page, shed[who].email, SCENARIO_PASSWORD);
  return page;
}

async function bookedRun(page: Page, title: string): Promise<string> {
  await describeSmall(page, title);
  await page.goto(`/castings/${await castingOf(title)}/find-time`);
  await page.getByRole("button", { name: "Book this run" }).first().click();
  await page.waitForURL(/\/firings\//);
  return firingOf(title);
}

/** When the door closes, ms since the epoch. */
async function kilnFrom(firingId: string): Promise<number | undefined> {
  const [row] = await rows<{ at: Date }>("SELECT starts_at AS at FROM booking WHERE firing_id = $1 AND standing AND purpose = 'kiln'", firingId);
  return row?.at.getTime();
}

/** The times on offer, in the order of their radio buttons, ms since the epoch. */
async function offered(page: Page): Promise<readonly number[]> {
  await page.getByRole("radio").nth(2).waitFor();
  const values = await page.getByRole("radio").evaluateAll((all) => all.map((one) => (one as HTMLInputElement).value));
  return values.map((value) => Date.parse(value.split(" ")[1] ?? ""));
}

test("an address and password typed early sign in", async ({ page }) => {
  const held = await holdScripts(page);
  await held.open("/sign-in");
  await page.getByLabel("Email").fill(shed.member.email);
  await page.getByLabel("Password").fill(SCENARIO_PASSWORD);
  await expect(page.getByRole("button", { name: "Sign in" })).toBeDisabled();
  await held.letScriptsCome("#field-email");
  await page.getByRole("button", { name: "Sign in" }).click();
  await page.waitForURL((url) => url.pathname === "/");
});

test("a casting described early is kept whole", async ({ browser }) => {
  const page = await signedIn(browser, "member");
  const held = await holdScripts(page);
  await held.open("/castings/new");
  await page.getByRole("textbox", { name: "Title" }).fill("Early heron");
  await page.getByLabel("Needed by").fill("2027-09-01");
  await page.getByLabel("Which glass").selectOption("lead-crystal-45");
  for (const [name, mm] of [["Width", "90"], ["Depth", "80"], ["Height", "60"], ["Wall", "33"]] as const) await page.getByRole("textbox", { name }).fill(mm);
  await page.getByRole("radio", { name: "through one face" }).check();
  await page.getByLabel("Dried in air before loading").check();
  await page.getByLabel("It is filled through a feeder").uncheck();
  await expect(page.getByRole("button", { name: "Save the casting" })).toBeDisabled();
  await held.letScriptsCome("#field-title");
  await expect(page.getByRole("region", { name: "The answer" })).toContainText("kiln-weeks");
  await page.getByRole("textbox", { name: "Thickest part" }).fill("60");
  await expect(page.getByRole("textbox", { name: "Title" })).toHaveValue("Early heron");
  await expect(page.getByLabel("Needed by")).toHaveValue("2027-09-01");
  await expect(page.getByLabel("Which glass")).toHaveValue("lead-crystal-45");
  await expect(page.getByRole("textbox", { name: "Wall" })).toHaveValue("33");
  await expect(page.getByRole("radio", { name: "through one face" })).toBeChecked();
  await expect(page.getByLabel("Dried in air before loading")).toBeChecked();
  await page.getByRole("button", { name: "Save the casting" }).click();
  await page.waitForURL(/\/castings\/[0-9a-f-]{36}/);
  const [casting] = await rows<{ needed: string; input: Record<string, unknown> }>("SELECT needed_by::text AS needed, input FROM casting WHERE title = 'Early heron'");
  expect(casting?.needed).toBe("2027-09-01");
  expect(casting?.input).toMatchObject({
    glass: "lead-crystal-45", cooling: "one-face",
    piece: { shape: "brick", sizeMm: [90, 80, 60], thickestMm: 60 }, mould: { wallMm: 33, driedBeforeLoading: true },
  });
  expect(casting?.input).not.toHaveProperty("feeder");
});

test("a time chosen early is the time the run is moved to", async ({ browser }) => {
  const page = await signedIn(browser, "member");
  const firingId = await bookedRun(page, "Early gull");
  const held = await holdScripts(page);
  await held.open(`/firings/${firingId}/move`);
  const third = (await offered(page))[2];
  await page.getByRole("radio").nth(2).check();
  await page.getByLabel("Reason").fill("The glass comes late.");
  await held.letScriptsCome('input[name="time"]');
  await page.getByLabel("Reason").fill("The glass comes a week late.");
  await expect(page.getByRole("radio").nth(2)).toBeChecked();
  await page.getByRole("button", { name: "Move the whole run" }).click();
  await page.waitForURL(`**/firings/${firingId}`);
  expect(await kilnFrom(firingId)).toBe(third);
});

test("a form sent without any script moves the run to the time chosen on screen", async ({ browser }) => {
  const page = await signedIn(browser, "member");
  const firingId = await bookedRun(page, "Early tern");
  const held = await holdScripts(page);
  await held.open(`/firings/${firingId}/move`);
  const third = (await offered(page))[2];
  await page.getByRole("radio").nth(2).check();
  await expect(page.getByRole("button", { name: "Move the whole run" })).toBeDisabled();
  await page.locator("form", { has: page.getByRole("radio") }).evaluate((form: HTMLFormElement) => form.requestSubmit());
  await page.waitForURL(`**/firings/${firingId}`, { waitUntil: "domcontentloaded" });
  expect(await kilnFrom(firingId)).toBe(third);
});

test("a refused move keeps the chosen time, on screen and in what is sent", async ({ browser }) => {
  const firingId = await bookedRun(await signedIn(browser, "member"), "Early plover");
  const page = await signedIn(browser, "manager");
  await page.goto(`/firings/${firingId}/move`);
  const third = (await offered(page))[2];
  await page.getByRole("radio").nth(2).check();
  await page.getByLabel("Reason").fill("short");
  await page.getByRole("button", { name: "Move the whole run" }).click();
  await expect(page.getByRole("alert").first()).toContainText("Nothing was moved");
  await expect(page.getByRole("radio").nth(2)).toBeChecked();
  await expect(page.getByLabel("Reason")).toHaveValue("short");
  await page.getByLabel("Reason").fill("Its kiln is needed for an inspection.");
  await page.getByRole("button", { name: "Move the whole run" }).click();
  await page.waitForURL(`**/firings/${firingId}`);
  expect(await kilnFrom(firingId)).toBe(third);
});

test("a wish filled in early is kept as it was filled in", async ({ browser }) => {
  const page = await signedIn(browser, "member");
  await bookedRun(page, "Early dunlin");
  await describeSmall(page, "Early sanderling");
  const held = await holdScripts(page);
  await held.open(`/castings/${await castingOf("Early sanderling")}/find-time`);
  await page.getByLabel("Kiln", { exact: true }).selectOption({ label: "South kiln" });
  await page.getByLabel("From", { exact: true }).fill("2027-04-05");
  await page.getByLabel("How much hangs on it").selectOption("3");
  await page.getByLabel("Why it matters").fill("The buyer");
  await held.letScriptsCome('textarea[name="note"]');
  await page.getByLabel("Why it matters").fill("The buyer travels then.");
  await expect(page.getByLabel("Kiln", { exact: true })).toHaveValue(shed.southKiln.equipmentId);
  await expect(page.getByLabel("From", { exact: true })).toHaveValue("2027-04-05");
  await page.getByRole("button", { name: "Ask for time" }).click();
  await expect(page.getByRole("main")).toContainText("Your ask");
  const wish = await rows("SELECT kiln_id AS kiln, importance, note, to_char(wished_from AT TIME ZONE 'Europe/Copenhagen', 'YYYY-MM-DD') AS day FROM ask WHERE workshop_id = $1", shed.workshopId);
  expect(wish).toEqual([{ kiln: shed.southKiln.equipmentId, importance: 3, note: "The buyer travels then.", day: "2027-04-05" }]);
});

test("hours, several of them changed early, are all kept", async ({ browser }) => {
  const page = await signedIn(browser, "manager");
  const held = await holdScripts(page);
  await held.open("/workshop/hours");
  await page.getByLabel("From", { exact: true }).first().fill("08:15");
  await page.getByLabel("Hands on duty").first().fill("5");
  await page.getByLabel("To", { exact: true }).nth(1).fill("17:45");
  await page.getByLabel("Day", { exact: true }).nth(5).selectOption("7");
  await held.letScriptsCome('input[name="weekly.0.opens"]');
  await page.getByRole("button", { name: "Keep these hours" }).click();
  await expect(page.getByRole("main")).toContainText("The hours are kept.");
  const hours = await rows("SELECT weekday, opens_min, closes_min, hands FROM staffed_hours WHERE workshop_id = $1 AND weekday IN (1, 2, 6, 7) ORDER BY 1", shed.workshopId);
  expect(hours).toEqual([
    { weekday: 1, opens_min: 495, closes_min: 1080, hands: 5 },
    { weekday: 2, opens_min: 540, closes_min: 1065, hands: 3 },
    { weekday: 7, opens_min: 540, closes_min: 1080, hands: 3 },
  ]);
});

test("roles ticked early are offered to be kept, and kept", async ({ browser }) => {
  const page = await signedIn(browser, "manager");
  const held = await holdScripts(page);
  await held.open("/workshop/people");
  const person = page.getByRole("row").filter({ hasText: shed.otherMember.name });
  await person.getByLabel("assistant").check();
  await person.getByLabel("manager").check();
  await page.locator("#invite-member").uncheck();
  await page.locator("#invite-manager").check();
  await page.locator("#invite-assistant").check();
  await page.getByLabel("Name").fill("Liv Early");
  await page.getByLabel("Email").fill("liv.early@saltmarsh.example");
  await held.letScriptsCome("#field-email");
  await person.getByRole("button", { name: "Keep these roles" }).click();
  const roles = () => rows<{ roles: string[] }>("SELECT roles FROM member WHERE member_id = $1", shed.otherMember.memberId).then(([member]) => [...(member?.roles ?? [])].sort());
  await expect.poll(roles).toEqual(["assistant", "manager", "member"]);
  await page.getByRole("button", { name: "Invite", exact: true }).click();
  await expect(page.locator("code")).toContainText("/invitation/");
  const [invited] = await rows<{ name: string; roles: string[] }>("SELECT name, roles FROM invitation WHERE workshop_id = $1", shed.workshopId);
  expect({ name: invited?.name, roles: [...(invited?.roles ?? [])].sort() }).toEqual({ name: "Liv Early", roles: ["assistant", "manager"] });
});

test("a tariff, several of its fields and days changed early, is kept", async ({ browser }) => {
  const page = await signedIn(browser, "manager");
  const held = await holdScripts(page);
  await held.open("/workshop/power");
  await page.getByLabel("Currency").fill("eur");
  await page.getByLabel("Price of a kWh").fill("0.31");
  await page.getByRole("textbox", { name: "Band" }).fill("Working days");
  for (const day of ["Sat", "Sun"]) await page.getByLabel(day, { exact: true }).uncheck();
  await held.letScriptsCome("#field-currency");
  await expect(page.getByLabel("Currency")).toHaveValue("EUR");
  await page.getByRole("button", { name: "Add a band" }).click();
  await page.getByRole("textbox", { name: "Band" }).last().fill("Weekend");
  await page.getByLabel("Price of a kWh").last().fill("0.24");
  for (const day of ["Mon", "Tue", "Wed", "Thu", "Fri"]) await page.getByLabel(day, { exact: true }).last().uncheck();
  await page.getByRole("button", { name: "Keep this tariff" }).click();
  await expect(page.getByRole("main")).toContainText("The tariff is kept.");
  await page.reload();
  await expect(page.getByRole("textbox", { name: "Band" }).first()).toHaveValue("Working days");
  await expect(page.getByLabel("Price of a kWh").first()).toHaveValue("0.31");
  await expect(page.getByLabel("Sat", { exact: true }).first()).not.toBeChecked();
  await expect(page.getByLabel("Fri", { exact: true }).first()).toBeChecked();
});

test("equipment of a kind chosen early asks for that kind's limits", async ({ browser }) => {
  const page = await signedIn(browser, "manager");
  const held = await holdScripts(page);
  await held.open("/workshop/equipment");
  await page.getByLabel("Kind").selectOption("trolley");
  await page.getByLabel("Name").fill("Early trolley");
  await held.letScriptsCome("#field-name");
  await page.getByLabel("Rated load").fill("250");
  await page.getByLabel("Own mass").fill("60");
  await expect(page.getByLabel("Kind")).toHaveValue("trolley");
  await page.getByRole("button", { name: "Add it" }).click();
  await expect(page.getByRole("link", { name: "Early trolley" })).toBeVisible();
});

test("a line of the check sheet cannot be ticked before the tick would be written down", async ({ browser }) => {
  const page = await signedIn(browser, "member");
  const firingId = await bookedRun(page, "Early turnstone");
  const held = await holdScripts(page);
  await held.open(`/firings/${firingId}/check-sheet`);
  const line = page.locator('[data-code="L1"]');
  await expect(line.getByRole("checkbox")).toBeDisabled();
  await held.letScriptsCome('[data-code="L1"] input');
  await line.getByRole("checkbox").click();
  await expect(line).toHaveAttribute("data-status", "ticked");
});
