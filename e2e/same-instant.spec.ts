import { expect, test } from "./test";
import { describeSmall } from "./describe";
import { otherBrowser } from "./people";
import { castingOf, rows } from "./rows";

test("two members who click the same weeks at the same instant: one gets them, the other is told who has them", async ({ browser }) => {
  const [one, two] = [await otherBrowser(browser, "odile"), await otherBrowser(browser, "kwame")];
  await describeSmall(one, "Same instant, one");
  await describeSmall(two, "Same instant, two");
  for (const page of [one, two]) {
    await page.getByRole("link", { name: "Find time" }).first().click();
    await expect(page.getByRole("heading", { name: "Find time", level: 1 })).toBeVisible();
  }
  await Promise.all([one, two].map((page) => page.getByRole("button", { name: "Book this run" }).first().click()));
  const booked = (page: typeof one) => page.waitForURL(/\/firings\//).then(() => "booked" as const);
  const told = (page: typeof one) => page.getByText("Nothing was booked").waitFor().then(() => "told" as const);
  const ends = await Promise.all([one, two].map((page) => Promise.race([booked(page), told(page)])));
  expect([...ends].sort()).toEqual(["booked", "told"]);
  const loser = ends[0] === "told" ? one : two;
  const [winnerTitle, loserTitle] = ends[0] === "told" ? ["Same instant, two", "Same instant, one"] : ["Same instant, one", "Same instant, two"];
  await expect(loser.getByRole("alert").filter({ hasText: "Nothing was booked" })).toContainText(winnerTitle ?? "");
  const castingId = await castingOf(loserTitle ?? "");
  expect(await rows("SELECT 1 FROM firing_casting WHERE casting_id = $1", castingId)).toEqual([]);
  expect(await rows("SELECT 1 FROM plan WHERE casting_id = $1", castingId)).toEqual([]);
});

test("a doubled click books once", async ({ browser }) => {
  const page = await otherBrowser(browser, "yuki");
  await describeSmall(page, "Doubled click");
  await page.getByRole("link", { name: "Find time" }).first().click();
  await page.getByRole("button", { name: "Book this run" }).first().dblclick();
  await page.waitForURL(/\/firings\//);
  const castingId = await castingOf("Doubled click");
  expect(await rows("SELECT 1 FROM firing_casting WHERE casting_id = $1", castingId)).toHaveLength(1);
});
