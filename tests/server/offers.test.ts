import { randomUUID } from "node:crypto";
import pg from "pg";
import { Temporal } from "temporal-polyfill";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import type { Who } from "@/lib/server/who";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { atInstant } = await import("@/lib/server/clock");
const { closeDatabase, inWorkshop } = await import("@/lib/server/db");
const { createAsk } = await import("@/lib/server/commands/create-ask");
const { bookAsk } = await import("@/lib/server/commands/book-ask");
const { changeAsk } = await import("@/lib/server/commands/change-ask");
const { withdrawAsk } = await import("@/lib/server/commands/withdraw-ask");
const { beginOutage } = await import("@/lib/server/commands/begin-outage");
const { bookRun } = await import("@/lib/server/commands/book-run");
const { endOutage } = await import("@/lib/server/commands/end-outage");
const { cancelRun } = await import("@/lib/server/commands/cancel-run");
const { confirmHold } = await import("@/lib/server/commands/confirm-hold");
const { lookForOffers } = await import("@/lib/server/jobs/look-for-offers");
const { lapseHold } = await import("@/lib/server/jobs/hold-jobs");
const { asksScreen } = await import("@/lib/server/queries/asks");
const { codeOf, describedCasting, firstOffer, must } = await import("@/tests/helpers/booking");

const owner = new pg.Client({ connectionString: database.ownerUrl });
await owner.connect();
let shed: MadeWorkshop;
const MONDAY = Temporal.Instant.from("2027-03-01T09:00:00Z");
const at = <T>(instant: Temporal.Instant, work: () => Promise<T>) => atInstant(instant, work);
const later = (hours: number) => MONDAY.add({ hours });
const rows = async (sql: string, ...values: unknown[]) => (await owner.query(sql, values)).rows;
const key = () => randomUUID();

beforeEach(async () => {
  shed = await makeWorkshop(database.ownerUrl);
  // One kiln only, so that two asks want the same time.
  await owner.query("UPDATE equipment SET retired_at = now() WHERE equipment_id = $1", [shed.southKiln.equipmentId]);
});
afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

/** Nobody can be offered the kiln until this ends. */
async function outage(until: string): Promise<string> {
  must(await at(MONDAY, () => beginOutage(shed.manager, { equipmentId: shed.northKiln.equipmentId, from: "2027-03-01T10:00", to: until, reason: "New elements go in." })));
  return (await rows("SELECT outage_id FROM outage WHERE workshop_id = $1", shed.workshopId))[0].outage_id;
}

async function asked(who: Who, title: string, change: object = {}, when = MONDAY) {
  return at(when, async () => {
    const castingId = await describedCasting(who, title);
    const { askId } = must(await createAsk(who, { castingId, fromDate: "2027-03-08", neededBy: "2027-04-20", importance: 2, note: "", ...change }));
    return { castingId, askId };
  });
}
const look = (when: Temporal.Instant) => at(when, () => lookForOffers(shed.workshopId));
const offers = () => rows("SELECT f.firing_id, f.ask_id, f.status, f.held_until, b.starts_at, b.ends_at FROM firing f JOIN booking b USING (workshop_id, firing_id) WHERE f.workshop_id = $1 AND f.ask_id IS NOT NULL AND b.purpose = 'kiln' ORDER BY b.starts_at, f.firing_id", shed.workshopId);
const standing = async () => (await offers()).filter(({ status }) => status === "held");
const jobs = async () => rows("SELECT key FROM graphile_worker._private_jobs WHERE key = $1", `offers:${shed.workshopId}`);

/** Two asks for a kiln that is out of service until its time would be too late for either, then free at once. */
async function twoWaiting() {
  const outageId = await outage("2027-06-01T10:00");
  const first = await asked(shed.member, "Gull");
  const second = await asked(shed.otherMember, "Tern", {}, later(1));
  await look(later(2));
  expect(await offers()).toEqual([]);
  must(await at(later(3), () => endOutage(shed.manager, { outageId })));
  return { first, second };
}

describe("time that becomes free", () => {
  it("is offered in their order, each held for a day, never the same time twice, and everybody is told", async () => {
    const { first, second } = await twoWaiting();
    await look(later(4));
    const [a, b] = await offers();
    expect([a.ask_id, b.ask_id]).toEqual([first.askId, second.askId]);
    expect(a.held_until).toEqual(new Date(later(28).epochMilliseconds));
    expect(a.ends_at <= b.starts_at || b.ends_at <= a.starts_at).toBe(true);
    expect(a.starts_at < b.starts_at).toBe(true);
    expect(a.starts_at >= new Date("2027-03-07T23:00:00Z")).toBe(true);
    const told = await rows("SELECT member_id, text FROM notice WHERE workshop_id = $1 ORDER BY created_at", shed.workshopId);
    const offered = told.filter(({ text }) => text.includes("offered to you"));
    expect(offered.map(({ member_id }) => member_id).toSorted()).toEqual([shed.member.memberId, shed.otherMember.memberId].toSorted());
    expect(offered.every(({ text }) => /It is held for you until Tue 2 Mar, 14:00\.$/.test(text))).toBe(true);
    expect(await rows("SELECT action, member_id FROM audit WHERE subject_id = $1", a.firing_id)).toEqual([{ action: "offer-time", member_id: null }]);
    await look(later(5));
    expect(await offers()).toHaveLength(2);
  });

  it("becomes a booked run when it is accepted, and the ask is met", async () => {
    const { first } = await twoWaiting();
    await look(later(4));
    const [mine] = await standing();
    await at(later(5), async () => {
      expect(codeOf(await confirmHold(shed.otherMember, { firingId: mine.firing_id }))).toBe("not-allowed");
      must(await confirmHold(shed.member, { firingId: mine.firing_id }));
    });
    expect(await rows("SELECT status FROM ask WHERE ask_id = $1", first.askId)).toEqual([{ status: "met" }]);
    expect(await rows("SELECT status FROM firing WHERE firing_id = $1", mine.firing_id)).toEqual([{ status: "planned" }]);
  });

  it("is what a manager books for the wish while it is offered", async () => {
    const { first } = await twoWaiting();
    await look(later(4));
    const [mine] = await standing();
    expect(await at(later(5), () => bookAsk(shed.manager, { askId: first.askId, requestKey: key() }))).toMatchObject({ ok: true, value: { firingId: mine.firing_id } });
    expect(await rows("SELECT status FROM firing WHERE firing_id = $1", mine.firing_id)).toEqual([{ status: "planned" }]);
  });

  it.each(["declined", "lapsed"] as const)("goes to the next when it is %s, and is not offered to the same ask again", async (how) => {
    const outageId = await outage("2027-06-01T10:00");
    const first = await asked(shed.member, "Gull", { neededBy: "2027-03-13" });
    const second = await asked(shed.otherMember, "Tern", { neededBy: "2027-03-14" });
    must(await at(later(1), () => endOutage(shed.manager, { outageId })));
    await look(later(1));
    const [only, none] = await standing();
    expect([only.ask_id, none]).toEqual([first.askId, undefined]);
    await owner.query("DELETE FROM graphile_worker._private_jobs WHERE key = $1", [`offers:${shed.workshopId}`]);
    if (how === "declined") must(await at(later(2), () => cancelRun(shed.member, { firingId: only.firing_id })));
    else await at(later(25), () => lapseHold({ workshopId: shed.workshopId, firingId: only.firing_id }));
    expect(await jobs()).toHaveLength(1);
    await look(later(26));
    expect((await standing()).map(({ ask_id }) => ask_id)).toEqual([second.askId]);
    expect(await rows("SELECT status FROM ask WHERE ask_id = $1", first.askId)).toEqual([{ status: "open" }]);
    const mine = (await at(later(27), () => asksScreen(shed.member, undefined))).mine;
    expect(mine).toMatchObject([{ askId: first.askId, offer: null, turnedDown: 1, place: 1 }]);
  });

  it("passes over who cannot use it: no induction, too late, or a piece that fits no kiln, and says how late where that would still do", async () => {
    const outageId = await outage("2027-03-29T10:00");
    await owner.query("UPDATE equipment SET needs_induction = true WHERE equipment_id = $1", [shed.northKiln.equipmentId]);
    await owner.query("INSERT INTO induction SELECT workshop_id, member_id, $2, member_id, now() FROM member WHERE member_id = $1", [shed.otherMember.memberId, shed.northKiln.equipmentId]);
    await at(MONDAY, async () => {
      const castingId = await describedCasting(shed.member, "Not shown");
      expect(await createAsk(shed.member, { castingId, fromDate: "2027-03-08", neededBy: "2027-04-20", importance: 3, note: "" })).toMatchObject({ ok: false, problems: [{ code: "kiln-does-not-fit" }] });
    });
    await asked(shed.otherMember, "Too late", { neededBy: "2027-03-20" });
    await look(later(1));
    expect(await offers()).toEqual([]);
    const late = await asked(shed.otherMember, "Late will do", { neededBy: "2027-03-20", lateDays: 60 });
    await look(later(2));
    expect((await standing()).map(({ ask_id }) => ask_id)).toEqual([late.askId]);
    const [told] = await rows("SELECT text FROM notice WHERE workshop_id = $1 AND text LIKE '%offered to you%'", shed.workshopId);
    expect(told.text).toMatch(/, \d+ days after the date it is needed by\./);
    expect(outageId).toBeDefined();
  });

  it("is offered exactly once by several at the same instant, and after one was killed in between", async () => {
    await twoWaiting();
    const killed = inWorkshop(shed.workshopId, async (tx) => {
      await tx.$executeRaw`SELECT pg_advisory_xact_lock(hashtextextended(${`${shed.workshopId}:calendar`}, 0))`;
      throw new Error("killed");
    });
    await expect(killed).rejects.toThrow("killed");
    await Promise.all([1, 2, 3, 4].map(() => look(later(4))));
    expect(await standing()).toHaveLength(2);
    expect(await rows("SELECT 1 FROM notice WHERE workshop_id = $1 AND text LIKE '%offered to you%'", shed.workshopId)).toHaveLength(2);
  }, 60_000);

  it("is looked for by one job in a transaction, and by none when that is rolled back", async () => {
    const { member, northKiln } = shed;
    const castingId = await at(MONDAY, () => describedCasting(member));
    const { firingId } = await at(MONDAY, async () => must(await bookRun(member, { ...(await firstOffer(member, castingId, northKiln.equipmentId)), requestKey: key() })));
    const clear = () => owner.query("DELETE FROM graphile_worker._private_jobs WHERE key = $1", [`offers:${shed.workshopId}`]);
    await clear();
    const failing = inWorkshop(shed.workshopId, async (tx) => {
      await tx.booking.updateMany({ where: { firingId }, data: { standing: false } });
      await tx.$executeRaw`SET CONSTRAINTS ALL IMMEDIATE`.catch(() => undefined);
      throw new Error("rolled back");
    });
    await expect(failing).rejects.toThrow();
    expect(await jobs()).toEqual([]);
    must(await at(MONDAY, () => cancelRun(member, { firingId })));
    expect(await jobs()).toHaveLength(1);
  });

  it("is another workshop's business in nothing", async () => {
    await twoWaiting();
    const stranger = await makeWorkshop(database.ownerUrl);
    await at(later(4), () => lookForOffers(stranger.workshopId));
    expect(await offers()).toEqual([]);
    await look(later(4));
    const [offer] = await standing();
    await at(later(5), async () => {
      expect(codeOf(await confirmHold(stranger.manager, { firingId: offer.firing_id }))).toBe("not-found");
      expect(await asksScreen(stranger.manager, undefined)).toMatchObject({ mine: [], all: [], waiting: 0 });
    });
  });
});

describe("an ask", () => {
  it("is refused where its date cannot be kept even with every kiln free, and says what could", async () => {
    await at(MONDAY, async () => {
      const castingId = await describedCasting(shed.member);
      const refused = await createAsk(shed.member, { castingId, fromDate: "2027-03-08", neededBy: "2027-03-09", importance: 2, note: "" });
      expect(refused).toMatchObject({ ok: false, problems: [{ code: "cannot-be-in-time", field: "neededBy" }] });
      expect(codeOf(await createAsk(shed.member, { castingId, fromDate: "2027-03-08", importance: 2, note: "" }))).toBe("no-date");
      expect(codeOf(await createAsk(shed.member, { castingId, fromDate: "2027-02-28", neededBy: "2027-05-01", importance: 2, note: "" }))).toBe("in-the-past");
    });
  });

  it("is changed by its member alone, keeps how long it has waited, and not while time is offered to it", async () => {
    const { first, second } = await twoWaiting();
    const change = { askId: first.askId, fromDate: "2027-03-12", neededBy: "2027-05-01", lateDays: 3, importance: 3, note: "A show." };
    await at(later(10 * 24), async () => {
      expect(codeOf(await changeAsk(shed.otherMember, change))).toBe("not-allowed");
      must(await changeAsk(shed.member, change));
      const { mine } = await asksScreen(shed.member, undefined);
      expect(mine).toMatchObject([{ notBefore: "2027-03-12", neededBy: "2027-05-01", lateDays: 3, importance: 3, note: "A show.", weeksWaited: 1 }]);
    });
    await look(later(10 * 24));
    await at(later(10 * 24), async () => {
      expect(codeOf(await changeAsk(shed.member, change))).toBe("offered");
      must(await withdrawAsk(shed.member, { askId: first.askId }));
    });
    expect((await standing()).map(({ ask_id }) => ask_id)).toEqual([second.askId]);
  });

  it("stands in the order the manager sees with every figure; a member sees their own place and why", async () => {
    await twoWaiting();
    await owner.query("UPDATE equipment SET retired_at = NULL WHERE equipment_id = $1", [shed.southKiln.equipmentId]);
    await at(MONDAY, async () => {
      const castingId = await describedCasting(shed.member, "Had already");
      must(await bookRun(shed.member, { ...(await firstOffer(shed.member, castingId, shed.southKiln.equipmentId)), requestKey: key() }));
    });
    await at(later(3), async () => {
      const { all } = await asksScreen(shed.manager, undefined);
      const hours = (await rows("SELECT extract(epoch FROM ends_at - starts_at)::float8 / 3600 AS hours FROM booking WHERE workshop_id = $1 AND purpose = 'kiln' AND standing", shed.workshopId))[0].hours;
      expect(all?.find(({ owner: name }) => name === shed.member.name)?.kilnWeeks).toBeCloseTo(hours / 168, 9);
      expect(all?.map(({ place }) => place)).toEqual([1, 2]);
      const own = await asksScreen(shed.member, undefined);
      expect([own.all, own.mine.length, own.waiting]).toEqual([null, 1, 2]);
      expect(own.mine[0]?.because).toMatch(/^(Before Tern|After Tern): /);
    });
  });
});
