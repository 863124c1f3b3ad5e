import { lookAtThis } from "./look";
import { signInAs } from "./people";
import { rows } from "./rows";
import { expect, test } from "./test";

const WORKSHOP = "(SELECT workshop_id FROM member WHERE email = 'ingrid@saltmarsh.example')";
const BEGUN = "started_at = clock_timestamp() - interval '47 s', beat_at = clock_timestamp() + interval '1 h', state = ";

/** What a re-plan's row says in each of its states, and what the screen then says of it. */
const STATES: readonly { readonly name: string; readonly row: string; readonly says: string | RegExp }[] = [
  { name: "waiting", row: "state = 'waiting'", says: /Nobody has begun yet/ },
  { name: "reading", row: `${BEGUN} 'searching', runs = NULL`, says: /Reads the calendar(?! done)/ },
  { name: "searching without a plan", row: `${BEGUN} 'searching', runs = 66`, says: /Looks for a first plan/ },
  { name: "searching", row: `${BEGUN} 'searching', runs = 66, moves = 41, cost = 214.4, bound = 147`, says: /45\.9%from the best possible, at most/ },
  { name: "placing", row: `${BEGUN} 'placing', runs = 66, moves = 38, cost = 191.2, bound = 147`, says: /to the quarter hour/ },
  { name: "stopping", row: `${BEGUN} 'searching', runs = 66, moves = 41, cost = 214.4, bound = 0, stop_asked_at = clock_timestamp()`, says: /Stopping/ },
  { name: "failed", row: `${BEGUN} 'failed', ended_at = clock_timestamp(), failure = 'Gull: it takes 2 people to load, and at most 1 is on duty.'`, says: /There is no plan/ },
  { name: "broken off", row: "started_at = clock_timestamp() - interval '90 s', beat_at = clock_timestamp() - interval '60 s', state = 'searching'", says: /broke off/ },
  { name: "given up", row: "state = 'lost', ended_at = clock_timestamp()", says: /given up/ },
];

test.afterAll(async () => {
  await rows(`DELETE FROM replan WHERE workshop_id = ${WORKSHOP}`);
});

for (const colorScheme of ["light", "dark"] as const) {
  // One workshop plans one season at a time, so both widths are looked at here.
  test(`a season says how far its planning is, ${colorScheme}`, async ({ page }, info) => {
    test.slow();
    await page.emulateMedia({ colorScheme });
    await signInAs(page, "ingrid");
    for (const { name, row, says } of STATES) {
      // Without its trigger, or the jobs' process would plan it.
      await rows(`SET session_replication_role = replica; DELETE FROM replan WHERE workshop_id = ${WORKSHOP};
        INSERT INTO replan (workshop_id, member_id, from_day, to_day, seconds, state) SELECT workshop_id, member_id, '2027-03-12', '2027-09-12', 120, 'lost' FROM member WHERE email = 'ingrid@saltmarsh.example';
        UPDATE replan SET ${row} WHERE workshop_id = ${WORKSHOP}`);
      await page.goto("/clashes/season");
      await expect(page.getByRole("main")).toContainText(says);
      await lookAtThis(page, `season ${name}`, info);
      await page.setViewportSize({ width: 390, height: 844 });
      await lookAtThis(page, `season ${name} narrow`, info);
      await page.setViewportSize({ width: 1440, height: 900 });
    }
  });
}
