import pg from "pg";
import { Temporal } from "temporal-polyfill";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import type { Who } from "@/lib/server/who";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { writeAudit } = await import("@/lib/server/audit");
const { atInstant, now } = await import("@/lib/server/clock");
const { closeDatabase, inWorkshopDirectly } = await import("@/lib/server/db");
const { holdRun } = await import("@/lib/server/commands/hold-run");
const { findTime } = await import("@/lib/server/queries/find-time");
const { castingStatement, castingToBook } = await import("@/lib/server/runs/casting-to-book");
const { openFiring, openingStatements } = await import("@/lib/server/runs/open-firing");
const { describedCasting, firstOffer, must } = await import("@/tests/helpers/booking");
const owner = new pg.Client({ connectionString: database.ownerUrl });
await owner.connect();
let shed: MadeWorkshop;

beforeEach(async () => {
  shed = await makeWorkshop(database.ownerUrl);
});
afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

const rows = async (sql: string, ...values: unknown[]) => (await owner.query(sql, values)).rows;

/** As book-run books, without its second try: what asks for more than statements fails. */
async function bookDirectly(who: Who, castingId: string, { kilnId, kilnFrom, steamFrom }: Awaited<ReturnType<typeof firstOffer>>): Promise<string> {
  const at = now();
  return inWorkshopDirectly(who.workshopId, [castingStatement(castingId), ...openingStatements({ who, now: at }, castingId)], async (tx) => {
    const ctx = { who, tx, now: at, audit: (entry: Parameters<typeof writeAudit>[4]) => writeAudit(tx, who, at, "book-run", entry) };
    const casting = must(await castingToBook(ctx, castingId));
    const times = { kilnId, kilnFrom: Temporal.Instant.from(kilnFrom), steamFrom: steamFrom === undefined ? undefined : Temporal.Instant.from(steamFrom) };
    return must(await openFiring(ctx, casting, times)).firingId;
  });
}

describe("a booking in statements alone", () => {
  it("is made by the manager for a member too, who is told, and mailed as they chose", async () => {
    const { manager, member, northKiln, workshopId } = shed;
    await owner.query("INSERT INTO mail_choice (workshop_id, member_id, kind, mailed) VALUES ($1, $2, 'booked', true)", [workshopId, member.memberId]);
    const castingId = await describedCasting(member, "Gull");
    const firingId = await bookDirectly(manager, castingId, await firstOffer(member, castingId, northKiln.equipmentId));
    const text = expect.stringMatching(/^Marit Toft booked North kiln from .* for Gull\.$/);
    expect(await rows("SELECT text, href FROM notice WHERE member_id = $1", member.memberId)).toEqual([{ text, href: `/firings/${firingId}` }]);
    const [mail, ...others] = await rows("SELECT address, body FROM mail WHERE workshop_id = $1", workshopId);
    expect([mail.address, others]).toEqual([member.email, []]);
    expect(mail.body).toContain("Marit Toft booked North kiln from");
  });

  it("frees a hold that is over, its own casting's too, and says so", async () => {
    const { member, otherMember, northKiln, southKiln, workshopId } = shed;
    const offered = async (who: Who, title: string, kilnId: string) => {
      const castingId = await describedCasting(who, title);
      const notBefore = now().add({ hours: 14 * 24 }).toString().slice(0, 10);
      const run = (await findTime(who, { castingId, notBefore }))?.offers.kilns.find((kiln) => kiln.kilnId === kilnId)?.runs[0];
      if (run === undefined) throw new Error("nothing offered");
      return { castingId, offer: { castingId, kilnId, kilnFrom: run.kilnFrom, ...(run.steamFrom === null ? {} : { steamFrom: run.steamFrom }) } };
    };
    const gull = await offered(member, "Gull", northKiln.equipmentId);
    const held = must(await holdRun(member, { ...gull.offer, requestKey: crypto.randomUUID() })).firingId;
    const tern = await offered(otherMember, "Tern", southKiln.equipmentId);
    const theirs = must(await holdRun(otherMember, { ...tern.offer, requestKey: crypto.randomUUID() })).firingId;
    const firingId = await atInstant(now().add({ hours: 25 }), () => bookDirectly(member, gull.castingId, gull.offer));
    const status = async (id: string) => rows("SELECT status, (SELECT count(*)::int FROM booking b WHERE b.firing_id = f.firing_id AND standing) + (SELECT count(*)::int FROM lift l WHERE l.firing_id = f.firing_id AND standing) + (SELECT count(*)::int FROM firing_casting s WHERE s.firing_id = f.firing_id AND standing) AS stands FROM firing f WHERE firing_id = $1", id);
    for (const over of [held, theirs]) expect(await status(over)).toEqual([{ status: "lapsed", stands: 0 }]);
    expect(await status(firingId)).toEqual([{ status: "planned", stands: 9 }]);
    expect(await rows("SELECT subject_id, member_id, before->>'status' AS before, after FROM audit WHERE workshop_id = $1 AND action = 'lapse-hold' ORDER BY audit_id", workshopId)).toEqual(
      [held, theirs].map((subject_id) => ({ subject_id, member_id: null, before: "held", after: { status: "lapsed" } })),
    );
    const told = async (who: Who) => (await rows("SELECT text FROM notice WHERE member_id = $1", who.memberId)).map(({ text }) => text);
    expect(await told(member)).toEqual([expect.stringMatching(/^The run held for Gull in North kiln, .*, lapsed .*\.$/)]);
    expect(await told(otherMember)).toEqual([expect.stringMatching(/^The run held for Tern in South kiln, .*, lapsed .*\.$/)]);
  });
});
