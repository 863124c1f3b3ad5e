import { randomUUID } from "node:crypto";
import pg from "pg";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase } = await import("@/lib/server/db");
const { bookRun } = await import("@/lib/server/commands/book-run");
const { cancelRun } = await import("@/lib/server/commands/cancel-run");
const { releaseRun } = await import("@/lib/server/commands/release-run");
const { moveRun } = await import("@/lib/server/commands/move-run");
const { createAsk } = await import("@/lib/server/commands/create-ask");
const { bookAsk } = await import("@/lib/server/commands/book-ask");
const { declineAsk } = await import("@/lib/server/commands/decline-ask");
const { firingScreen } = await import("@/lib/server/queries/firing");
const { moveTimes } = await import("@/lib/server/queries/move-times");
const { clashesScreen } = await import("@/lib/server/queries/clashes");
const { bookedRun, codeOf, describedCasting, firstOffer, must } = await import("@/tests/helpers/booking");

let owner: pg.Client;
let app: pg.Client;
let shed: MadeWorkshop;

beforeAll(async () => {
  owner = new pg.Client({ connectionString: database.ownerUrl });
  app = new pg.Client({ connectionString: database.appUrl });
  await owner.connect();
  await app.connect();
});
afterAll(async () => {
  await owner.end();
  await app.end();
  await closeDatabase();
  await database.drop();
});

async function fresh(): Promise<MadeWorkshop> {
  shed = await makeWorkshop(database.ownerUrl);
  return shed;
}

async function rows(sql: string, ...values: unknown[]) {
  return (await owner.query(sql, values)).rows;
}

const standing = (firingId: string) => rows("SELECT purpose FROM booking WHERE firing_id = $1 AND standing ORDER BY purpose", firingId);
const key = () => randomUUID();

describe("booking a run", () => {
  it("books steamer, trolley both ways and kiln together, with lifts, check sheet, plan and audit", async () => {
    const { member, northKiln } = await fresh();
    const { firingId } = await bookedRun(member, northKiln.equipmentId);
    const purposes = (await standing(firingId)).map((row) => row.purpose);
    expect(purposes).toContain("kiln");
    expect(purposes).toContain("steam-out");
    expect((await rows("SELECT what FROM lift WHERE firing_id = $1 AND standing", firingId)).length).toBe(4);
    expect((await rows("SELECT code FROM check_item WHERE firing_id = $1", firingId)).length).toBeGreaterThan(20);
    expect((await rows("SELECT action FROM audit WHERE subject_id = $1", firingId)).map((row) => row.action)).toEqual(["book-run"]);
    const [plan] = await rows("SELECT p.calculation FROM plan p JOIN firing f USING (workshop_id, plan_id) WHERE f.firing_id = $1", firingId);
    expect(plan?.calculation).toBeTruthy();
  });

  it("refuses the same weeks to the next member with the holder's name and until when, and leaves nothing of its run", async () => {
    const { member, otherMember, northKiln } = await fresh();
    const mine = await describedCasting(member, "Gull");
    const theirs = await describedCasting(otherMember, "Tern");
    const offer = await firstOffer(member, mine, northKiln.equipmentId);
    must(await bookRun(member, { ...offer, requestKey: key() }));
    const refused = await bookRun(otherMember, { ...offer, castingId: theirs, requestKey: key() });
    expect(refused.ok).toBe(false);
    if (refused.ok) return;
    expect(refused.problems[0].message).toMatch(/Gull/);
    expect(refused.problems[0].message).toMatch(/until|from/);
    expect(await rows("SELECT 1 FROM firing WHERE workshop_id = $1", member.workshopId)).toHaveLength(1);
    expect(await rows("SELECT 1 FROM plan WHERE casting_id = $1", theirs)).toHaveLength(0);
  });

  it("gives the weeks to exactly one of ten members who click at the same instant", async () => {
    const { member, otherMember, northKiln } = await fresh();
    const who = [member, otherMember];
    const clicks = [];
    const castings = [];
    for (let i = 0; i < 10; i += 1) castings.push(await describedCasting(who[i % 2] ?? member, `Casting ${i}`));
    const offer = await firstOffer(member, castings[0] ?? "", northKiln.equipmentId);
    for (const [i, castingId] of castings.entries()) clicks.push(bookRun(who[i % 2] ?? member, { ...offer, castingId, requestKey: key() }));
    const outcomes = await Promise.all(clicks);
    expect(outcomes.filter((outcome) => outcome.ok)).toHaveLength(1);
    for (const outcome of outcomes) if (!outcome.ok) expect(outcome.problems[0].code).not.toBe("fault");
    expect(await rows("SELECT 1 FROM firing WHERE workshop_id = $1", member.workshopId)).toHaveLength(1);
  });

  it("answers a repeated click with the first answer, one after another and at once, and books once", async () => {
    const { member, northKiln } = await fresh();
    const castingId = await describedCasting(member);
    const offer = { ...(await firstOffer(member, castingId, northKiln.equipmentId)), requestKey: key() };
    const [first, second] = await Promise.all([bookRun(member, offer), bookRun(member, offer)]);
    const third = await bookRun(member, offer);
    expect(first.ok).toBe(true);
    expect(second).toEqual(first);
    expect(third).toEqual(first);
    expect(await rows("SELECT 1 FROM firing WHERE workshop_id = $1", member.workshopId)).toHaveLength(1);
    expect(await rows("SELECT 1 FROM audit WHERE workshop_id = $1 AND action = 'book-run'", member.workshopId)).toHaveLength(1);
  });

  it("answers a repeated cancellation with the first answer, and another run under its key not at all", async () => {
    const { member, northKiln, southKiln } = await fresh();
    const { firingId } = await bookedRun(member, northKiln.equipmentId, "Gull");
    const other = await bookedRun(member, southKiln.equipmentId, "Tern");
    const requestKey = key();
    const first = await cancelRun(member, { firingId, requestKey }, "one");
    expect(first.ok).toBe(true);
    expect(await cancelRun(member, { firingId, requestKey }, "one")).toEqual(first);
    expect(codeOf(await cancelRun(member, { firingId: other.firingId, requestKey }, "two"))).toBe("request-key-reused");
    expect(codeOf(await bookRun(member, { castingId: other.castingId, kilnId: northKiln.equipmentId, kilnFrom: "2030-01-08T10:00:00Z", requestKey }, "one"))).toBe("request-key-reused");
    expect(codeOf(await cancelRun(member, { firingId }))).toBe("not-planned");
    expect((await standing(other.firingId)).length).toBeGreaterThan(0);
  });

  it("refuses a second run for a casting that has one", async () => {
    const { member, northKiln, southKiln } = await fresh();
    const { castingId } = await bookedRun(member, northKiln.equipmentId);
    const again = await bookRun(member, { castingId, kilnId: southKiln.equipmentId, kilnFrom: "2030-01-08T10:00:00Z", requestKey: key() });
    expect(codeOf(again)).toBe("already-booked");
  });

  it("refuses another member's casting, and another workshop's as if it did not exist", async () => {
    const { member, otherMember, northKiln } = await fresh();
    const castingId = await describedCasting(member);
    const offer = await firstOffer(member, castingId, northKiln.equipmentId);
    expect(codeOf(await bookRun(otherMember, { ...offer, requestKey: key() }))).toBe("not-allowed");
    const stranger = await makeWorkshop(database.ownerUrl);
    expect(codeOf(await bookRun(stranger.member, { ...offer, requestKey: key() }))).toBe("not-found");
    expect(codeOf(await bookRun(stranger.manager, { ...offer, requestKey: key() }))).toBe("not-found");
  });
});

describe("what Postgres holds, whoever writes", () => {
  it.each(["owner", "app"] as const)("refuses an overlap by direct SQL as the %s", async (role) => {
    const { member, northKiln } = await fresh();
    const { firingId } = await bookedRun(member, northKiln.equipmentId);
    const client = role === "owner" ? owner : app;
    await client.query("BEGIN");
    await client.query("SELECT set_config('lehrbook.workshop', $1, true)", [member.workshopId]);
    const overlap = client.query(
      `INSERT INTO booking (workshop_id, firing_id, equipment_id, purpose, starts_at, ends_at)
       SELECT workshop_id, firing_id, equipment_id, 'load', starts_at + interval '1 hour', ends_at FROM booking
        WHERE firing_id = $1 AND purpose = 'kiln' AND standing`,
      [firingId],
    );
    await expect(overlap).rejects.toMatchObject({ code: "23P01", constraint: "booking_no_overlap" });
    await client.query("ROLLBACK");
  });

  it("lets a booking begin at the instant another ends, and not a second before", async () => {
    const { member, northKiln } = await fresh();
    const { firingId } = await bookedRun(member, northKiln.equipmentId);
    const [kiln] = await rows("SELECT ends_at FROM booking WHERE firing_id = $1 AND purpose = 'kiln'", firingId);
    const insert = (from: string) =>
      owner.query(
        `WITH f AS (INSERT INTO firing (workshop_id, plan_id, member_id, purposes, heating_hours) SELECT workshop_id, plan_id, member_id, '{kiln}', 1 FROM firing WHERE firing_id = $1 RETURNING workshop_id, firing_id)
         INSERT INTO booking (workshop_id, firing_id, equipment_id, purpose, starts_at, ends_at) SELECT workshop_id, firing_id, $2, 'kiln', $3::timestamptz, $3::timestamptz + interval '1 day' FROM f`,
        [firingId, northKiln.equipmentId, from],
      );
    const end = new Date(kiln?.ends_at).getTime();
    await expect(insert(new Date(end - 1000).toISOString())).rejects.toMatchObject({ code: "23P01" });
    await expect(insert(new Date(end).toISOString())).resolves.toBeTruthy();
  });

  it("refuses half a run when the transaction commits", async () => {
    const { member, northKiln } = await fresh();
    const { firingId } = await bookedRun(member, northKiln.equipmentId);
    await expect(owner.query("UPDATE booking SET standing = false WHERE firing_id = $1 AND purpose = 'unload'", [firingId]).then(() => owner.query("SELECT 1"))).rejects.toMatchObject({ code: "LB002" });
    await expect(owner.query("UPDATE firing SET status = 'cancelled' WHERE firing_id = $1", [firingId])).rejects.toMatchObject({ code: "LB002" });
  });
});

describe("cancelling and releasing", () => {
  it("frees all of a run, and its weeks are offered again", async () => {
    const { member, otherMember, northKiln } = await fresh();
    const castingId = await describedCasting(member);
    const offer = await firstOffer(member, castingId, northKiln.equipmentId);
    const { firingId } = must(await bookRun(member, { ...offer, requestKey: key() }));
    must(await cancelRun(member, { firingId }));
    expect(await standing(firingId)).toEqual([]);
    expect(await rows("SELECT 1 FROM lift WHERE firing_id = $1 AND standing", firingId)).toEqual([]);
    const theirs = await describedCasting(otherMember);
    must(await bookRun(otherMember, { ...offer, castingId: theirs, requestKey: key() }));
  });

  it("is the owner's to cancel; the manager releases with a reason and the owner is told", async () => {
    const { member, otherMember, manager, northKiln } = await fresh();
    const { firingId } = await bookedRun(member, northKiln.equipmentId, "Heron");
    expect(codeOf(await cancelRun(otherMember, { firingId }))).toBe("not-allowed");
    expect(codeOf(await releaseRun(member, { firingId, reason: "because I would like it" }))).toBe("not-allowed");
    expect((await releaseRun(manager, { firingId, reason: "too short" })).ok).toBe(false);
    must(await releaseRun(manager, { firingId, reason: "The elements of the kiln broke." }));
    const [notice] = await rows("SELECT text FROM notice WHERE member_id = $1", member.memberId);
    expect(notice?.text).toContain("The elements of the kiln broke.");
    expect(await standing(firingId)).toEqual([]);
  });
});

describe("moving", () => {
  it("moves everything together and keeps the plan on its own kiln", async () => {
    const { member, northKiln } = await fresh();
    const { firingId } = await bookedRun(member, northKiln.equipmentId);
    const before = await standing(firingId);
    const screen = await moveTimes(member, { firingId });
    const later = screen?.offers.kilns.find((kiln) => kiln.kilnId === northKiln.equipmentId)?.runs[1];
    if (screen === null || later === undefined) throw new Error("nothing to move to");
    must(await moveRun(member, { firingId, kilnId: northKiln.equipmentId, kilnFrom: later.kilnFrom, version: screen.version, requestKey: key() }));
    expect(await standing(firingId)).toEqual(before);
    const after = await firingScreen(member, firingId);
    expect(after?.kiln.from && Date.parse(after.kiln.from)).toBe(Date.parse(later.kilnFrom));
    expect(await rows("SELECT 1 FROM plan p JOIN firing f USING (workshop_id, plan_id) WHERE f.firing_id = $1", firingId)).toHaveLength(1);
  });

  it("plans anew on another kiln, refuses a stale page, and tells the owner why when the manager moves it", async () => {
    const { member, manager, northKiln, southKiln } = await fresh();
    const { firingId } = await bookedRun(member, northKiln.equipmentId, "Curlew");
    const screen = await moveTimes(manager, { firingId });
    const there = screen?.offers.kilns.find((kiln) => kiln.kilnId === southKiln.equipmentId)?.runs[0];
    if (screen === null || there === undefined) throw new Error("nothing to move to");
    const move = { firingId, kilnId: southKiln.equipmentId, kilnFrom: there.kilnFrom, version: screen.version };
    expect(codeOf(await moveRun(manager, { ...move, requestKey: key() }))).toBe("reason-too-short");
    expect(codeOf(await moveRun(manager, { ...move, version: 99, reason: "The north kiln breaks down.", requestKey: key() }))).toBe("changed-meanwhile");
    must(await moveRun(manager, { ...move, reason: "The north kiln breaks down.", requestKey: key() }));
    const [notice] = await rows("SELECT text FROM notice WHERE member_id = $1", member.memberId);
    expect(notice?.text).toContain("The north kiln breaks down.");
    expect(await rows("SELECT 1 FROM plan WHERE casting_id = (SELECT casting_id FROM firing_casting WHERE firing_id = $1)", firingId)).toHaveLength(2);
  });

  it("moves nothing when the new time is taken", async () => {
    const { member, otherMember, northKiln, southKiln } = await fresh();
    const { firingId } = await bookedRun(member, northKiln.equipmentId);
    const { firingId: theirs } = await bookedRun(otherMember, southKiln.equipmentId);
    const before = await rows("SELECT booking_id FROM booking WHERE firing_id = $1 AND standing ORDER BY 1", firingId);
    const screen = await firingScreen(member, theirs);
    const moved = await moveRun(member, { firingId, kilnId: southKiln.equipmentId, kilnFrom: screen?.kiln.from ?? "", version: 1, requestKey: key() });
    expect(moved.ok).toBe(false);
    expect(await rows("SELECT booking_id FROM booking WHERE firing_id = $1 AND standing ORDER BY 1", firingId)).toEqual(before);
  });
});

describe("two members who want the same weeks", () => {
  it("shows a crowded clash until the manager answers, and books the wish once the weeks are free", async () => {
    const { member, otherMember, manager, northKiln } = await fresh();
    const { firingId } = await bookedRun(member, northKiln.equipmentId, "First");
    const screen = await firingScreen(member, firingId);
    const wished = await describedCasting(otherMember, "Second");
    const fromDate = (screen?.kiln.from ?? "").slice(0, 10);
    const { askId } = must(await createAsk(otherMember, { castingId: wished, kilnId: northKiln.equipmentId, fromDate, importance: 3, note: "The show opens." }));
    const [clash] = await clashesScreen(manager, undefined);
    expect(clash?.kind).toBe("crowded");
    expect(clash?.firings.map((firing) => firing.firingId)).toEqual([firingId]);
    expect(clash?.asks.map((ask) => ask.askId)).toEqual([askId]);
    expect((await bookAsk(manager, { askId, requestKey: key() })).ok).toBe(false);
    must(await releaseRun(manager, { firingId, reason: "The other one has a fixed date." }));
    must(await bookAsk(manager, { askId, requestKey: key() }));
    expect(await clashesScreen(manager, undefined)).toEqual([]);
    const notices = await rows("SELECT text FROM notice WHERE member_id = $1", otherMember.memberId);
    expect(notices).toHaveLength(1);
    expect(codeOf(await declineAsk(manager, { askId, reason: "It was booked meanwhile." }))).toBe("answered");
  });
});
