import { randomUUID } from "node:crypto";
import { hashToken } from "@/lib/server/tokens";
import { expect, test } from "./test";
import { look } from "./look";
import { demoIds, filled } from "./pages";
import { newBrowser, otherBrowser, signInAs } from "./people";
import { rows } from "./rows";

const SCREENS = [
  "/", "/castings", "/castings/new", "/castings/[castingId]", "/castings/[castingId]/find-time", "/castings/[castingId]/bench-sheet",
  "/castings/[castingId]/cold-work", "/castings/[castingId]/why", "/firings/[firingId]/why", "/firings/[firingId]", "/firings/[firingId]/move", "/firings/[firingId]/plan-anew",
  "/firings/[firingId]/check-sheet", "/wall", "/calendar", "/clashes", "/clashes/season", "/clashes/by-hand", "/lifts", "/notices", "/mail", "/profile", "/workshop/people", "/workshop/equipment",
  "/workshop/equipment/[equipmentId]", "/workshop/hours", "/workshop/power", "/workshop/record", "/no-such-page",
];
/** Before anybody has signed in. */
const OUTSIDE = ["/sign-in", "/forgotten", "/reset/[token]", "/invitation/[token]", "/invitation/a-token-that-is-none"];

/** An invitation and a reset that can be used, both by the same token. */
async function liveToken(): Promise<string> {
  const token = randomUUID();
  const until = "2027-03-15T00:00:00Z";
  await rows("INSERT INTO password_reset (token_hash, person_id, expires_at) SELECT $1, person_id, $2 FROM person WHERE email = 'odile@saltmarsh.example'", hashToken(token), until);
  await rows(
    "INSERT INTO invitation (workshop_id, email, name, roles, token_hash, expires_at) SELECT workshop_id, $2, 'Pia Lund', '{member}', $1, $3 FROM member WHERE email = 'ingrid@saltmarsh.example'",
    hashToken(token), `${token}@saltmarsh.example`, until,
  );
  return token;
}

for (const colorScheme of ["light", "dark"] as const) {
  // Colours are the same at every width, so the dark is looked at once.
  test(`every screen is accessible and fits its width, ${colorScheme}${colorScheme === "light" ? " @phone" : ""}`, async ({ browser, page }, info) => {
    test.slow();
    await page.emulateMedia({ colorScheme });
    await signInAs(page, "ingrid");
    const ids = await demoIds();
    for (const screen of SCREENS) await look(page, filled(screen, ids), screen, info);

    const member = await otherBrowser(browser, "mette", page);
    await member.emulateMedia({ colorScheme });
    for (const screen of ["/", "/castings", "/firings/[firingId]"]) await look(member, filled(screen, ids), `${screen} member`, info);

    const outside = await newBrowser(browser, page);
    await outside.emulateMedia({ colorScheme });
    const token = await liveToken();
    for (const screen of OUTSIDE) await look(outside, filled(screen, { token }), screen, info);
  });
}

test("the pictures for the first page of the documents", async ({ page }) => {
  test.skip(process.env["LEHRBOOK_PICTURES"] !== "1", "only when the pictures are to be made anew");
  await signInAs(page, "mette");
  await page.setViewportSize({ width: 1280, height: 900 });
  for (const [address, file] of [["/wall", "kiln-wall"], [filled("/castings/[castingId]", await demoIds()), "casting"]] as const) {
    await page.goto(address);
    await expect(page.locator("main h1")).toBeVisible();
    await page.screenshot({ path: `e2e/pictures/${file}.png` });
  }
});
