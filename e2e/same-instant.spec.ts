import { expect, test } from "./test";
import { describeSmall } from "./describe";
import { otherBrowser } from "./people";
import { castingOf, firingOf, rows } from "./rows";

/** How often the record says that this casting's member booked a run. */
async function timesBooked(castingId: string): Promise<number> {
  return (await rows("SELECT 1 FROM audit JOIN casting USING (workshop_id, member_id) WHERE casting_id = $1 AND action = 'book-run'", castingId)).length;
}

test("two members who click the same weeks at the same instant: one gets them, the other is told who has them", async ({ browser }) => {
  const [one, two] = [await otherBrowser(browser, "odile"), await otherBrowser(browser, "kwame")];
  await describeSmall(one, "Same instant, one");
  await describeSmall(two, "Same instant, two");
  for (const page of [one, two]) {
    await page.getByRole("link", { name: "Find time" }).first().click();
    await expect(page.getByRole("heading", { name: "Find time", level: 1 })).toBeVisible();
  }
  const titles = ["Same instant, one", "Same instant, two"];
  const bookedBefore = Object.fromEntries(await Promise.all(titles.map(async (title) => [title, await timesBooked(await castingOf(title))] as const)));
  await Promise.all([one, two].map((page) => page.getByRole("button", { name: "Book this run" }).first().click()));
  const booked = (page: typeof one) => page.waitForURL(/\/firings\//).then(() => "booked" as const);
  const told = (page: typeof one) => page.getByText("Nothing was booked").waitFor().then(() => "told" as const);
  const ends = await Promise.all([one, two].map((page) => Promise.race([booked(page), told(page)])));
  expect([...ends].sort()).toEqual(["booked", "told"]);
  const loser = ends[0] === "told" ? one : two;
  const [winnerTitle, loserTitle] = ends[0] === "told" ? ["Same instant, two", "Same instant, one"] : ["Same instant, one", "Same instant, two"];
  await expect(loser.getByRole("alert").filter({ hasText: "Nothing was booked" })).toContainText(winnerTitle ?? "");
  await expect(loser.getByRole("alert").filter({ hasText: "Nothing was booked" })).toContainText(ends[0] === "told" ? "Kwame Asante" : "Odile Fournier");
  const castingId = await castingOf(loserTitle ?? "");
  expect(await rows("SELECT 1 FROM firing_casting WHERE casting_id = $1", castingId)).toEqual([]);
  expect(await rows("SELECT 1 FROM plan WHERE casting_id = $1", castingId)).toEqual([]);
  expect(await rows("SELECT 1 FROM lift WHERE casting_id = $1", castingId)).toEqual([]);
  const theWinner = await firingOf(winnerTitle ?? "");
  expect(await timesBooked(castingId)).toBe(bookedBefore[loserTitle ?? ""]);

  // Whoever lost can go on: the same weeks are no longer offered, the next ones are.
  const taken = await rows<{ at: Date }>("SELECT starts_at AS at FROM booking WHERE firing_id = $1 AND purpose = 'kiln' AND standing", theWinner);
  await loser.reload();
  await loser.getByRole("button", { name: "Book this run" }).first().click();
  await loser.waitForURL(/\/firings\//);
  const next = await rows<{ at: Date }>("SELECT starts_at AS at FROM booking WHERE firing_id = $1 AND purpose = 'kiln' AND standing", await firingOf(loserTitle ?? ""));
  expect(taken).toHaveLength(1);
  expect(next).toHaveLength(1);
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
