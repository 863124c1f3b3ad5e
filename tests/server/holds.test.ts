import { randomUUID } from "node:crypto";
import pg from "pg";
import { Temporal } from "temporal-polyfill";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import type { Who } from "@/lib/server/who";
import type { OfferInput } from "@/tests/helpers/booking";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { atInstant } = await import("@/lib/server/clock");
const { closeDatabase, inWorkshop } = await import("@/lib/server/db");
const { holdRun } = await import("@/lib/server/commands/hold-run");
const { setHoldLimit } = await import("@/lib/server/commands/set-hold-limit");
const { confirmHold } = await import("@/lib/server/commands/confirm-hold");
const { bookRun } = await import("@/lib/server/commands/book-run");
const { cancelRun } = await import("@/lib/server/commands/cancel-run");
const { releaseRun } = await import("@/lib/server/commands/release-run");
const { moveRun } = await import("@/lib/server/commands/move-run");
const { startFiring } = await import("@/lib/server/commands/start-firing");
const { lapseHold, warnOfLapse } = await import("@/lib/server/jobs/hold-jobs");
const { listBookings } = await import("@/lib/server/queries/bookings");
const { findTime } = await import("@/lib/server/queries/find-time");
const { firingScreen } = await import("@/lib/server/queries/firing");
const { kilnWall } = await import("@/lib/server/queries/kiln-wall");
const { readHome } = await import("@/lib/server/queries/home");
const { calendarScreen } = await import("@/lib/server/queries/calendar");
const { codeOf, describedCasting, must } = await import("@/tests/helpers/booking");

const owner = new pg.Client({ connectionString: database.ownerUrl });
await owner.connect();
let shed: MadeWorkshop;
/** A Monday morning before the clocks change in the night to 28 March 2027. */
const MONDAY = Temporal.Instant.from("2027-03-01T09:00:00Z");
const at = <T>(instant: Temporal.Instant, work: () => Promise<T>) => atInstant(instant, work);
const rows = async (sql: string, ...values: unknown[]) => (await owner.query(sql, values)).rows;
const statusOf = async (firingId: string) => (await rows("SELECT status FROM firing WHERE firing_id = $1", firingId))[0]?.status;
const standing = async (firingId: string) => (await rows("SELECT 1 FROM booking WHERE firing_id = $1 AND standing", firingId)).length;
const key = () => randomUUID();

beforeEach(async () => {
  shed = await makeWorkshop(database.ownerUrl);
});
afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

/** The first run that begins two weeks later or after. */
async function laterOffer(who: Who, castingId: string, kilnId: string, from: Temporal.Instant): Promise<OfferInput> {
  const notBefore = from.add({ hours: 14 * 24 }).toZonedDateTimeISO(who.timeZone).toPlainDate().toString();
  const run = (await findTime(who, { castingId, notBefore }))?.offers.kilns.find((kiln) => kiln.kilnId === kilnId)?.runs[0];
  if (run === undefined) throw new Error("nothing offered");
  return { castingId, kilnId, kilnFrom: run.kilnFrom, ...(run.steamFrom === null ? {} : { steamFrom: run.steamFrom }) };
}

async function held(from = MONDAY, title = "Gull", who = shed.member, kilnId = shed.northKiln.equipmentId) {
  return at(from, async () => {
    const castingId = await describedCasting(who, title);
    const offer = await laterOffer(who, castingId, kilnId, from);
    const { firingId } = must(await holdRun(who, { ...offer, requestKey: key() }));
    return { castingId, firingId, offer, until: from.add({ hours: 24 }) };
  });
}
const job = (firingId: string) => ({ workshopId: shed.workshopId, firingId });

describe("a held run", () => {
  it("occupies everything a booking would, says until when, and is shown as held everywhere", async () => {
    const { member, otherMember } = shed;
    const { firingId, offer, castingId } = await held();
    expect(await rows("SELECT status, held_until FROM firing WHERE firing_id = $1", firingId)).toEqual([{ status: "held", held_until: new Date("2027-03-02T09:00:00Z") }]);
    expect(await standing(firingId)).toBe(4);
    await at(MONDAY, async () => {
      const theirs = await describedCasting(otherMember, "Tern");
      expect(codeOf(await bookRun(otherMember, { ...offer, castingId: theirs, requestKey: key() }))).toMatch(/taken|busy|kiln/);
      const listed = must(await listBookings(member, { from: "2027-03-01", to: "2027-06-01", mine: "false", limit: 100 }));
      expect(listed.bookings).toHaveLength(4);
      for (const one of listed.bookings) expect(one).toMatchObject({ status: "held", heldUntil: "2027-03-02T09:00:00Z" });
      expect((await kilnWall(member, null)).bars).toMatchObject([{ id: firingId, status: "held", heldUntilMs: Date.parse("2027-03-02T09:00:00Z") }]);
      expect(await firingScreen(member, firingId)).toMatchObject({ status: "held", heldUntil: "2027-03-02T09:00:00.000Z" });
      expect((await calendarScreen(member, { of: "mine", around: null })).entries[0]?.title).toMatch(/^Held until Tue 2 Mar, 10:00\. /);
      expect((await readHome(member, undefined)).castings).toMatchObject([{ castingId, heldUntilMs: Date.parse("2027-03-02T09:00:00Z") }]);
      expect(await findTime(member, { castingId })).toMatchObject({ held: true, firingId });
    });
  });

  it("cannot be started or moved, and becomes a normal run when its holder confirms it", async () => {
    const { member, otherMember } = shed;
    const { firingId, offer } = await held();
    await at(MONDAY, async () => {
      expect(codeOf(await startFiring(member, { firingId }))).toBe("only-held");
      expect(codeOf(await moveRun(member, { firingId, kilnId: offer.kilnId, kilnFrom: offer.kilnFrom, version: 1, requestKey: key() }))).toBe("not-planned");
      expect(codeOf(await confirmHold(otherMember, { firingId }))).toBe("not-allowed");
      must(await confirmHold(member, { firingId }));
      expect(codeOf(await confirmHold(member, { firingId }))).toBe("not-held");
    });
    expect([await statusOf(firingId), await standing(firingId)]).toEqual(["planned", 4]);
    expect(await rows("SELECT action, after ->> 'status' AS status FROM audit WHERE subject_id = $1 ORDER BY audit_id", firingId)).toEqual([{ action: "hold-run", status: "held" }, { action: "confirm-hold", status: "planned" }]);
    await at(MONDAY.add({ hours: 30 }), () => lapseHold(job(firingId)));
    expect(await statusOf(firingId)).toBe("planned");
  });

  it("is let go by its holder or released by the manager, and then free at once", async () => {
    const { member, otherMember, manager } = shed;
    const first = await held();
    await at(MONDAY, async () => must(await cancelRun(member, { firingId: first.firingId })));
    expect([await statusOf(first.firingId), await standing(first.firingId)]).toEqual(["lapsed", 0]);
    const second = await held(MONDAY, "Tern", otherMember);
    expect(second.offer.kilnFrom).toBe(first.offer.kilnFrom);
    await at(MONDAY, async () => must(await releaseRun(manager, { firingId: second.firingId, reason: "The kiln goes to a course." })));
    expect([await statusOf(second.firingId), await standing(second.firingId)]).toEqual(["lapsed", 0]);
  });

  it("is of the right workshop's holder alone", async () => {
    const { firingId } = await held();
    const stranger = await makeWorkshop(database.ownerUrl);
    await at(MONDAY, async () => {
      expect(codeOf(await confirmHold(stranger.manager, { firingId }))).toBe("not-found");
      expect((await kilnWall(stranger.manager, null)).bars).toEqual([]);
      expect(must(await listBookings(stranger.member, { from: "2027-03-01", to: "2027-06-01", mine: "false", limit: 100 })).bookings).toEqual([]);
    });
  });
});

describe("limits", () => {
  it("lets a member hold two at once and says when the next lapses; the manager changes how many", async () => {
    const { member, southKiln } = shed;
    await held(MONDAY, "One");
    await held(MONDAY.add({ hours: 1 }), "Two", member, southKiln.equipmentId);
    await at(MONDAY.add({ hours: 2 }), async () => {
      const castingId = await describedCasting(member, "Three");
      const offer = await laterOffer(member, castingId, southKiln.equipmentId, MONDAY);
      const refused = await holdRun(member, { ...offer, requestKey: key() });
      expect(refused).toMatchObject({ ok: false, problems: [{ code: "too-many-holds", allowed: "2 at once" }] });
      expect(refused.ok ? "" : refused.problems[0].message).toContain("Tue 2 Mar, 10:00");
      expect(codeOf(await setHoldLimit(shed.manager, { holdsEach: 21 }))).not.toBe("ok");
      must(await setHoldLimit(shed.manager, { holdsEach: 3 }));
      must(await holdRun(member, { ...offer, requestKey: key() }));
    });
  });

  it("gives no third to ten clicks at the same instant", async () => {
    const { member, northKiln, southKiln } = shed;
    const outcomes = await at(MONDAY, async () => {
      const offers = [];
      for (let n = 0; n < 10; n += 1) {
        const castingId = await describedCasting(member, `Casting ${n}`);
        offers.push(await laterOffer(member, castingId, (n % 2 === 0 ? northKiln : southKiln).equipmentId, MONDAY.add({ hours: 24 * 30 * Math.floor(n / 2) })));
      }
      return Promise.all(offers.map((offer) => holdRun(member, { ...offer, requestKey: key() })));
    });
    expect(outcomes.filter((one) => one.ok).length).toBeLessThanOrEqual(2);
    expect(outcomes.map(codeOf)).not.toContain("fault");
    expect(await rows("SELECT 1 FROM firing WHERE workshop_id = $1 AND status = 'held'", shed.workshopId)).toHaveLength(outcomes.filter((one) => one.ok).length);
  }, 60_000);

  it("does not renew a hold on the same time until a day after it was to end, and says when; booking is free", async () => {
    const { member } = shed;
    const { firingId, offer } = await held();
    const again = () => holdRun(member, { ...offer, requestKey: key() });
    await at(MONDAY, async () => {
      must(await cancelRun(member, { firingId }));
      expect(await again()).toMatchObject({ ok: false, problems: [{ code: "held-before", allowed: "Wed 3 Mar, 10:00 or later" }] });
    });
  });
});

describe("a run that begins soon", () => {
  it("is held until it begins, and not at all when that is within the hour", async () => {
    const { member, northKiln } = shed;
    await at(MONDAY, async () => {
      const castingId = await describedCasting(member);
      const first = (await findTime(member, { castingId }))?.offers.kilns.find(({ kilnId }) => kilnId === northKiln.equipmentId)?.runs[0];
      const begins = Temporal.Instant.from(first?.steamFrom ?? "");
      const offer = { castingId, kilnId: northKiln.equipmentId, kilnFrom: first?.kilnFrom, steamFrom: first?.steamFrom };
      expect(Temporal.Instant.compare(begins, MONDAY.add({ hours: 1 }))).toBe(-1);
      expect(codeOf(await holdRun(member, { ...offer, requestKey: key() }))).toBe("starts-too-soon");
      const { firingId } = must(await at(begins.subtract({ hours: 2 }), () => holdRun(member, { ...offer, requestKey: key() })));
      const [row] = await rows("SELECT held_until, (SELECT min(starts_at) FROM lift WHERE firing_id = $1) AS first FROM firing WHERE firing_id = $1", firingId);
      expect(row.held_until).toEqual(row.first);
    });
  });
});

describe("lapsing", () => {
  it.each([
    ["an ordinary day", MONDAY],
    ["the night the clocks go forward", Temporal.Instant.from("2027-03-27T11:30:00Z")],
    ["the night they go back", Temporal.Instant.from("2027-10-30T11:30:00Z")],
  ])("happens after 24 elapsed hours over %s, not before", async (_, from) => {
    const { firingId, until } = await held(from);
    await at(until.subtract({ milliseconds: 1 }), () => lapseHold(job(firingId)));
    expect(await statusOf(firingId)).toBe("held");
    await at(until, () => lapseHold(job(firingId)));
    expect([await statusOf(firingId), await standing(firingId)]).toEqual(["lapsed", 0]);
    await at(until.add({ hours: 1 }), () => lapseHold(job(firingId)));
    const told = await rows("SELECT text FROM notice WHERE workshop_id = $1", shed.workshopId);
    expect(told).toHaveLength(1);
    expect(told[0].text).toMatch(/^The run held for Gull in North kiln, .* lapsed /);
  });

  it("is no reason to wait for a job: from its end on everybody sees the time as free and whoever books releases it first", async () => {
    const { otherMember, member } = shed;
    const { firingId, castingId, offer, until } = await held();
    await at(until, async () => {
      expect(codeOf(await confirmHold(member, { firingId }))).toBe("hold-lapsed");
      expect((await kilnWall(member, null)).bars).toEqual([]);
      expect((await readHome(member, undefined)).castings).toMatchObject([{ step: "book-run", heldUntilMs: null }]);
      expect(await findTime(member, { castingId })).toMatchObject({ held: false, firingId: null });
      const theirs = await describedCasting(otherMember, "Tern");
      must(await bookRun(otherMember, { ...offer, castingId: theirs, requestKey: key() }));
    });
    expect([await statusOf(firingId), await standing(firingId)]).toEqual(["lapsed", 0]);
    expect(await rows("SELECT action, member_id FROM audit WHERE subject_id = $1 AND action = 'lapse-hold'", firingId)).toEqual([{ action: "lapse-hold", member_id: null }]);
  });

  it("lets its own casting book at once, too", async () => {
    const { member } = shed;
    const { castingId, offer, until } = await held();
    await at(until, async () => must(await bookRun(member, { ...offer, castingId, requestKey: key() })));
    expect(await rows("SELECT status FROM firing f JOIN firing_casting c USING (workshop_id, firing_id) WHERE c.casting_id = $1 AND c.standing", castingId)).toEqual([{ status: "planned" }]);
  });

  it("is foretold once, six hours before, and only of what is still held", async () => {
    const { firingId, until } = await held();
    const notices = () => rows("SELECT text FROM notice WHERE workshop_id = $1", shed.workshopId);
    await at(until.subtract({ hours: 6 }).subtract({ milliseconds: 1 }), () => warnOfLapse(job(firingId)));
    expect(await notices()).toEqual([]);
    await Promise.all([1, 2, 3].map(() => at(until.subtract({ hours: 6 }), () => warnOfLapse(job(firingId)))));
    expect(await notices()).toHaveLength(1);
    const other = await held(MONDAY, "Tern", shed.otherMember, shed.southKiln.equipmentId);
    await at(MONDAY, async () => must(await confirmHold(shed.otherMember, { firingId: other.firingId })));
    await at(until.subtract({ hours: 1 }), () => warnOfLapse(job(other.firingId)));
    expect(await notices()).toHaveLength(1);
  });

  it("is told to nobody, and no job is left, when the hold itself is rolled back", async () => {
    const { member, northKiln } = shed;
    const jobs = async () => (await rows("SELECT key FROM graphile_worker._private_jobs WHERE key LIKE 'lapse:%' OR key LIKE 'warn:%'")).length;
    const before = await jobs();
    const { firingId } = await held();
    const [lapse, warn] = await rows("SELECT run_at FROM graphile_worker._private_jobs WHERE key IN ($1, $2) ORDER BY key", `lapse:${firingId}`, `warn:${firingId}`);
    expect([lapse?.run_at, warn?.run_at]).toEqual([new Date("2027-03-02T09:00:00Z"), new Date("2027-03-02T03:00:00Z")]);
    expect(await jobs()).toBe(before + 2);
    const failing = inWorkshop(shed.workshopId, async (tx) => {
      const { planId } = await tx.plan.findFirstOrThrow();
      await tx.firing.create({ data: { workshopId: shed.workshopId, planId, memberId: member.memberId, purposes: ["kiln"], heatingHours: 1, status: "held", heldUntil: new Date() } });
      throw new Error(`rolled back ${northKiln.name}`);
    });
    await expect(failing).rejects.toThrow("rolled back");
    expect(await jobs()).toBe(before + 2);
  });

  it("ends one way when confirmations, lapses and bookings come at the same instant", async () => {
    const { member, otherMember } = shed;
    const { firingId, offer, until } = await held();
    const theirs = await at(MONDAY, () => describedCasting(otherMember, "Tern"));
    const before = until.subtract({ milliseconds: 1 });
    const confirming = Array.from({ length: 7 }, () => at(before, () => confirmHold(member, { firingId })));
    const lapsing = Array.from({ length: 7 }, () => at(until, () => lapseHold(job(firingId))));
    const booking = Array.from({ length: 6 }, () => at(until, () => bookRun(otherMember, { ...offer, castingId: theirs, requestKey: key() })));
    const [confirmed, booked] = [await Promise.all(confirming), await Promise.all(booking), await Promise.all(lapsing)];
    expect([...confirmed, ...booked].map(codeOf)).not.toContain("fault");
    const status = await statusOf(firingId);
    expect(["planned", "lapsed"]).toContain(status);
    expect(confirmed.filter((one) => one.ok)).toHaveLength(status === "planned" ? 1 : 0);
    expect(booked.filter((one) => one.ok).length).toBeLessThanOrEqual(status === "planned" ? 0 : 1);
    expect(await standing(firingId)).toBe(status === "planned" ? 4 : 0);
  }, 60_000);
});
