import { expect, test } from "./test";
import { describeSmall } from "./describe";
import { look } from "./look";
import { otherBrowser } from "./people";
import { castingOf, rows } from "./rows";

test("a member holds a run, lets it go, asks for time and sees their place @phone", async ({ browser, page }, info) => {
  const title = `Held for ${info.project.name}`;
  const odile = await otherBrowser(browser, "odile", page);
  const main = odile.getByRole("main");
  await describeSmall(odile, title);
  // Both windows run at once, and want time of their own.
  const month = info.project.name === "phone" ? "09" : "05";
  const findTime = `/castings/${await castingOf(title)}/find-time?notBefore=2027-${month}-06`;
  await odile.goto(findTime);
  await main.getByRole("button", { name: /^Hold the run from/ }).first().click();
  await odile.waitForURL(/\/firings\//);
  await expect(main).toContainText("Held for you until");
  await expect(main).toContainText("Firing, only held");
  await look(odile, new URL(odile.url()).pathname, "a held firing", info);
  await main.getByRole("button", { name: "Let it go" }).click();
  await odile.getByRole("dialog").getByRole("button", { name: "Let it go" }).click();
  await expect(main).toContainText("held and not booked");

  await odile.goto(findTime);
  await main.getByRole("button", { name: /^Hold the run from/ }).first().click();
  await expect(main).toContainText("Nothing is held");
  await odile.getByLabel("From", { exact: true }).fill("2027-05-03");
  await odile.getByLabel("Ready by").fill("2027-05-04");
  await odile.getByRole("button", { name: "Ask for time" }).click();
  await expect(main).toContainText("even with every kiln free");
  await odile.getByLabel("Ready by").fill("2027-07-01");
  await odile.getByRole("button", { name: "Ask for time" }).click();
  await expect(main).toContainText("Your ask");

  await look(odile, "/asks", "/asks with one", info);
  const ask = odile.locator("[data-ask]").filter({ hasText: title });
  await expect(ask).toContainText("Any kiln that fits, begun on Mon 3 May or later, needed by Thu 1 Jul");
  await ask.getByRole("button", { name: "Withdraw the ask" }).click();
  await odile.getByRole("dialog").getByRole("button", { name: "Withdraw it" }).click();
  await expect(ask).toHaveCount(0);
  expect(await rows("SELECT a.status FROM ask a JOIN casting c USING (workshop_id, casting_id) WHERE c.title = $1", title)).toEqual([{ status: "withdrawn" }]);
});
