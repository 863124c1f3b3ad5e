import type { Browser, Page } from "@playwright/test";
import { SCENARIO_PASSWORD, makeWorkshop } from "@/tests/helpers/scenario";
import { DEMO_PASSWORD } from "@/lib/contracts/demo-sign-ins";
import { describeSmall } from "./describe";
import { expect, test } from "./test";
import { newBrowser, otherBrowser, signIn } from "./people";
import { rows } from "./rows";

/** The manager of a workshop that no other test looks at. */
async function ownWorkshop(browser: Browser, like: Page) {
  const shed = await makeWorkshop(process.env["LEHRBOOK_E2E_DATABASE_URL"] ?? "", { name: "Quay Glass Loft" });
  const page = await newBrowser(browser, like);
  await signIn(page, shed.manager.email, SCENARIO_PASSWORD);
  return { page, main: page.getByRole("main"), shed };
}

test("the manager invites a person, who joins by the link, gets roles, and is let go @phone", async ({ browser, page: own }, info) => {
  const name = info.project.name === "phone" ? "Signe Holt" : "Runa Holt";
  const manager = await otherBrowser(browser, "ingrid", own);
  await manager.goto("/workshop/people");
  await manager.getByLabel("Name").fill(name);
  await manager.getByLabel("Email").fill(`${info.project.name}@saltmarsh.example`);
  await manager.getByRole("button", { name: "Invite", exact: true }).click();
  const link = (await manager.locator("code").textContent()) ?? "";
  expect(link).toContain("/invitation/");

  const page = await newBrowser(browser, own);
  await page.goto(link);
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("Saltmarsh Glass Sheds");
  await page.getByLabel("Choose a password").fill("short");
  await page.getByRole("button", { name: "Join the workshop" }).click();
  await expect(page.getByRole("alert").first()).toContainText("at least 10 characters");
  await page.getByLabel("Choose a password").fill("a sentence of one's own");
  await page.getByRole("button", { name: "Join the workshop" }).click();
  await page.waitForURL((url) => url.pathname === "/");
  await expect(page.getByRole("main")).toContainText("What needs you");
  await page.goto("/workshop/people");
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("Not for your role");

  const again = await newBrowser(browser, own);
  await again.goto(link);
  await expect(again.getByRole("main")).toContainText("This invitation cannot be used");

  // A role counts from the next click on.
  await manager.reload();
  const person = manager.getByRole("row").filter({ hasText: name });
  await person.getByLabel("manager").check();
  await person.getByRole("button", { name: "Keep these roles" }).click();
  const roles = () => rows<{ roles: string[] }>("SELECT roles FROM member WHERE email = $1", `${info.project.name}@saltmarsh.example`).then(([member]) => member?.roles);
  await expect.poll(roles).toEqual(["member", "manager"]);
  await page.goto("/workshop/people");
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("People");

  await person.getByRole("button", { name: "Let go" }).click();
  await manager.getByRole("dialog").getByRole("button", { name: "Let go" }).click();
  await expect(person).toContainText("left");
  await page.goto("/castings");
  await expect(page.getByRole("main")).toContainText("You belong to no workshop");
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

test("equipment is added, changed, taken out of service, retired and brought back @phone", async ({ browser, page: own }) => {
  const { page, main } = await ownWorkshop(browser, own);
  await page.goto("/workshop/equipment");
  await page.getByLabel("Kind").selectOption("trolley");
  await page.getByLabel("Name").fill("Scissor trolley");
  await page.getByLabel("Rated load").fill("5");
  await page.getByLabel("Own mass").fill("60");
  await page.getByRole("button", { name: "Add it" }).click();
  await expect(page.getByRole("alert").first()).toContainText("10 to 5000 kg");
  await page.getByLabel("Rated load").fill("250");
  await page.getByRole("button", { name: "Add it" }).click();
  await page.getByRole("link", { name: "Scissor trolley" }).click();

  await page.getByLabel("From").fill("2027-06-01T09:00");
  await page.getByLabel("To", { exact: true }).fill("2027-06-02T17:00");
  await page.getByLabel("What is wrong with it").fill("Its yearly examination");
  await page.getByRole("button", { name: "Take out of service" }).click();
  await expect(main).toContainText("out of service for that time");
  await expect(main).toContainText("Its yearly examination");

  await page.getByLabel("Rated load").fill("300");
  await page.getByRole("button", { name: "Keep the changes" }).click();
  await expect(main).toContainText("The changes are kept.");
  await page.getByRole("button", { name: "Retire it" }).click();
  await page.getByRole("dialog").getByLabel("Reason").fill("Its brake does not hold any more.");
  await page.getByRole("dialog").getByRole("button", { name: "Retire it" }).click();
  await expect(main).toContainText("Retired");
  await page.getByRole("button", { name: "Bring it back" }).click();
  await page.getByRole("dialog").getByRole("button", { name: "Bring it back" }).click();
  await expect(page.getByRole("button", { name: "Retire it" })).toBeVisible();
});

test("staffed hours, closures and the electrician's limit are kept, and on record @phone", async ({ browser, page: own }) => {
  const { page, main, shed } = await ownWorkshop(browser, own);
  await page.goto("/workshop/hours");
  await page.getByRole("button", { name: "Add hours" }).click();
  await expect(page.getByLabel("Day", { exact: true }).last()).toHaveValue("7");
  await page.getByLabel("From", { exact: true }).last().fill("14:00");
  await page.getByLabel("To", { exact: true }).last().fill("10:00");
  await page.getByRole("button", { name: "Keep these hours" }).click();
  await expect(page.getByRole("alert").first()).toContainText("Sunday");
  await page.getByLabel("From", { exact: true }).last().fill("10:00");
  await page.getByLabel("To", { exact: true }).last().fill("14:00");
  await page.getByRole("button", { name: "Keep these hours" }).click();
  await expect(main).toContainText("The hours are kept.");
  await page.goto("/lifts?day=2027-03-14");
  await expect(main).toContainText("On duty: 10:00–14:00 2 people");

  await page.goto("/workshop/hours");
  await page.getByLabel("First day closed").fill("2027-07-01");
  await page.getByLabel("Why").fill("Summer");
  await page.getByRole("button", { name: "Add the closure" }).click();
  await expect(main).toContainText("Thu 1 Jul 2027: Summer");
  await page.goto("/lifts?day=2027-07-01");
  await expect(main).toContainText("The workshop is closed: Summer");

  await page.goto("/workshop/power");
  await page.getByLabel("Limit").fill("0.2");
  await page.getByRole("button", { name: "Keep the limit" }).click();
  await expect(page.getByRole("alert").first()).toContainText("1 to 2000 kW");
  await page.getByLabel("Limit").fill("36");
  await page.getByRole("button", { name: "Keep the limit" }).click();
  await expect(main).toContainText("The limit is kept.");

  await page.goto("/workshop/record?text=Summer");
  await expect(main).toContainText("add closure");
  const record = await rows<{ action: string }>("SELECT DISTINCT action FROM audit WHERE workshop_id = $1 ORDER BY 1", shed.workshopId);
  expect(record.map(({ action }) => action)).toEqual(["add-closure", "set-power-limit", "set-staffed-hours"]);
});

test("signing out everywhere ends the other sessions", async ({ browser }) => {
  const [here, there] = [await newBrowser(browser), await newBrowser(browser)];
  for (const page of [here, there]) await signIn(page, "yuki@saltmarsh.example", DEMO_PASSWORD);
  await here.goto("/profile");
  await here.getByRole("button", { name: "Sign out everywhere" }).click();
  await here.waitForURL(/\/sign-in/);
  await there.goto("/castings");
  await there.waitForURL(/\/sign-in/);
  await signIn(there, "yuki@saltmarsh.example", DEMO_PASSWORD);
  await expect(there.getByRole("main")).toContainText("What needs you");
});

test("the tariff is kept with a price for every hour, a casting shows its cost, and is told when it is gone @phone", async ({ browser, page: own }) => {
  const { page, main } = await ownWorkshop(browser, own);
  await describeSmall(page, "Priced bowl");
  const cost = main.locator("section").filter({ has: page.getByRole("heading", { name: "Energy and cost" }) }).last();
  await expect(cost).toContainText("No tariff is set");
  await cost.getByRole("link", { name: "Set the tariff" }).click();
  const tariff = page.getByRole("form", { name: "The tariff" });
  await tariff.getByLabel("Currency").fill("eur");
  await tariff.getByLabel("Price of a kWh").fill("0,3125");
  await tariff.getByLabel("To", { exact: true }).fill("18:00");
  await tariff.getByRole("button", { name: "Keep this tariff" }).click();
  await expect(tariff.getByRole("alert").first()).toContainText("Monday 18:00 to 24:00 has no price");
  await tariff.getByLabel("To", { exact: true }).fill("00:00");
  await tariff.getByRole("button", { name: "Keep this tariff" }).click();
  await expect(tariff).toContainText("The tariff is kept.");

  await page.goto("/castings");
  await main.getByRole("link", { name: "Priced bowl" }).first().click();
  await expect(cost).toContainText("0.3125");
  await expect(cost).toContainText(/about EUR\s\d+\.\d\d/);
  await page.goto("/workshop/power");
  await page.getByRole("button", { name: "Take it away" }).click();
  await page.getByRole("dialog").getByRole("button", { name: "Take it away" }).click();
  await expect(main).toContainText("No tariff is set yet.");
});
