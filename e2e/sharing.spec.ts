import { expect, test } from "./test";
import { bookOffered, describeSmall } from "./describe";
import { lookAtThis } from "./look";
import { otherBrowser } from "./people";
import { firingOf, rows } from "./rows";

test("a member asks to share another's firing, sees it to scale, and both have it once it is accepted @phone", async ({ browser, page }, info) => {
  const [host, guest] = [`Tide ${info.project.name}`, `Reed ${info.project.name}`];
  const odile = await otherBrowser(browser, "odile", page);
  await describeSmall(odile, host);
  await bookOffered(odile);
  const firing = new URL(odile.url()).pathname;

  const kwame = await otherBrowser(browser, "kwame", page);
  await describeSmall(kwame, guest);
  await kwame.goto(firing);
  await kwame.getByRole("link", { name: `See how, ${guest}` }).click();
  await expect(kwame.getByRole("heading", { name: `${guest} with ${host}` })).toBeVisible({ timeout: 20_000 });
  await expect(kwame.getByRole("img", { name: /The shelf from above/ })).toHaveCount(2);
  await lookAtThis(kwame, "a firing that might be shared", info);
  await kwame.getByRole("button", { name: "Propose it" }).click();
  await kwame.waitForURL(/\/joinings\//);
  await expect(kwame.getByRole("main")).toContainText("Odile Fournier");

  await odile.goto("/");
  const waits = odile.getByRole("listitem").filter({ hasText: `Kwame Asante asks to add ${guest}` }).filter({ hasText: "Waiting for your answer" });
  await waits.getByRole("link", { name: "Answer" }).click();
  await expect(odile.getByRole("heading", { name: "Your answer is wanted" })).toBeVisible();
  await lookAtThis(odile, "a proposal to share a firing", info);
  await odile.getByRole("button", { name: "Accept" }).click();
  await expect(odile.getByRole("main")).toContainText("Everybody accepted. It is booked.");

  await kwame.goto(firing);
  await expect(kwame.getByRole("heading", { name: `${host} with ${guest}`, level: 1 })).toBeVisible();
  await expect(kwame.getByRole("heading", { name: "Shared", exact: true })).toBeVisible();
  await lookAtThis(kwame, "a shared firing", info);
  expect(await firingOf(guest)).toBe(firing.split("/").at(-1));
  const purposes = await rows<{ purpose: string }>("SELECT purpose FROM booking WHERE firing_id = $1 AND standing ORDER BY 1", await firingOf(guest));
  expect(purposes.map(({ purpose }) => purpose)).toEqual(["kiln", "load", "steam-out", "steam-out", "unload"]);
});
