import { expect, test } from "./test";
import { otherBrowser, signIn } from "./people";
import { rows } from "./rows";

test("the manager invites a person, who joins by the link and finds their way", async ({ browser }) => {
  const manager = await otherBrowser(browser, "ingrid");
  await manager.goto("/workshop/people");
  await manager.getByLabel("Name").fill("Signe Holt");
  await manager.getByLabel("Email").fill("signe@saltmarsh.example");
  await manager.getByRole("button", { name: "Invite", exact: true }).click();
  const link = await manager.locator("code").textContent();
  expect(link).toContain("/invitation/");

  const page = await (await browser.newContext({ baseURL: process.env["LEHRBOOK_E2E_URL"] ?? "" })).newPage();
  await page.goto(link ?? "");
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("Saltmarsh Glass Sheds");
  await page.getByLabel("Choose a password").fill("short");
  await page.getByRole("button", { name: "Join the workshop" }).click();
  await expect(page.getByRole("alert").first()).toContainText("at least 10 characters");
  await page.getByLabel("Choose a password").fill("a sentence for Signe");
  await page.getByRole("button", { name: "Join the workshop" }).click();
  await page.waitForURL((url) => url.pathname === "/");
  await expect(page.getByRole("main")).toContainText("What needs you");
  await page.goto("/workshop/people");
  await expect(page.getByRole("main")).toContainText(/not|role/i);

  const again = await (await browser.newContext({ baseURL: process.env["LEHRBOOK_E2E_URL"] ?? "" })).newPage();
  await again.goto(link ?? "");
  await expect(again.getByRole("main")).toContainText("This invitation cannot be used");
});

test("a wrong password is refused, and too many are made to wait", async ({ page }) => {
  await page.goto("/sign-in");
  for (let i = 0; i < 6; i += 1) {
    await page.getByLabel("Email").fill("nobody@saltmarsh.example");
    await page.getByLabel("Password").fill(`wrong ${i}`);
    await page.getByRole("button", { name: "Sign in" }).click();
    await expect(page.getByRole("alert").first()).toContainText(i < 5 ? "do not belong together" : "Too many attempts");
  }
});

test("equipment, outages, hours and the electrician's limit are kept", async ({ browser }) => {
  const page = await otherBrowser(browser, "ingrid");
  await page.goto("/workshop/power");
  await page.getByLabel("Limit").fill("0.2");
  await page.getByRole("button", { name: "Keep the limit" }).click();
  await expect(page.getByRole("alert").first()).toContainText("1 to 2000 kW");
  await page.getByLabel("Limit").fill("36");
  await page.getByRole("button", { name: "Keep the limit" }).click();
  await expect(page.getByRole("main")).toContainText("The limit is kept.");

  await page.goto("/workshop/equipment");
  await page.getByRole("link", { name: "Scissor trolley" }).click();
  await page.getByLabel("From").fill("2027-06-01T09:00");
  await page.getByLabel("To", { exact: true }).fill("2027-06-02T17:00");
  await page.getByLabel("What is wrong with it").fill("Its yearly examination");
  await page.getByRole("button", { name: "Take out of service" }).click();
  await expect(page.getByRole("main")).toContainText("out of service for that time");

  await page.goto("/workshop/hours");
  await page.getByLabel("First day closed").fill("2027-07-01");
  await page.getByLabel("Why").fill("Summer");
  await page.getByRole("button", { name: "Add the closure" }).click();
  await expect(page.getByRole("main")).toContainText("Thu 1 Jul 2027: Summer");

  await page.goto("/workshop/record?text=Summer");
  await expect(page.getByRole("main")).toContainText("add closure");
  expect((await rows("SELECT 1 FROM audit WHERE action IN ('set-power-limit', 'begin-outage', 'add-closure')")).length).toBeGreaterThanOrEqual(3);
});

test("signing out everywhere ends the other sessions", async ({ browser }) => {
  const here = await otherBrowser(browser, "yuki");
  const there = await otherBrowser(browser, "yuki");
  await here.goto("/profile");
  await here.getByRole("button", { name: "Sign out everywhere" }).click();
  await here.waitForURL(/\/sign-in/);
  await there.goto("/castings");
  await there.waitForURL(/\/sign-in/);
  await signIn(there, "yuki@saltmarsh.example", "tide over saltmarsh");
  await expect(there.getByRole("main")).toContainText("What needs you");
});
