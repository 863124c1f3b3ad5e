import { randomUUID } from "node:crypto";
import pg from "pg";
import { Temporal } from "temporal-polyfill";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { sortedSpans } from "@/lib/domain/booking/free-time";
import { spansIn, stepsIn, type TakenCalendar } from "@/lib/domain/booking/taken-calendar";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase, inWorkshop } = await import("@/lib/server/db");
const { atInstant } = await import("@/lib/server/clock");
const { bookedRun, describedCasting, firstOffer, must } = await import("@/tests/helpers/booking");
const { cancelRun } = await import("@/lib/server/commands/cancel-run");
const { holdRun } = await import("@/lib/server/commands/hold-run");
const { lengthenBooking } = await import("@/lib/server/commands/lengthen-booking");
const { keptCalendar } = await import("@/lib/server/rows/kept-calendar");
const { loadCalendar } = await import("@/lib/server/rows/taken-calendar");
const owner = new pg.Client({ connectionString: database.ownerUrl });
const other = new pg.Client({ connectionString: database.ownerUrl });

let made: MadeWorkshop;
let mine: string;
beforeAll(async () => {
  await Promise.all([owner.connect(), other.connect()]);
  made = await makeWorkshop(database.ownerUrl, { powerLimitKw: 100 });
  mine = (await bookedRun(made.member, made.northKiln.equipmentId, "Low tide")).firingId;
  await bookedRun(made.otherMember, made.southKiln.equipmentId, "Ebb");
});
afterAll(async () => {
  await owner.end();
  await other.end();
  await closeDatabase();
  await database.drop();
});

const FROM = Temporal.Now.instant();
const keptNow = () => inWorkshop(made.workshopId, (tx) => keptCalendar(tx, made.workshopId, FROM));
const readNow = () => inWorkshop(made.workshopId, (tx) => loadCalendar(tx, FROM));

/** In one order; a piece's spans as they are taken together. */
function plainly({ busy, lifts, heating }: TakenCalendar) {
  const steps = (list: TakenCalendar["lifts"]) => stepsIn(list).sort((a, b) => a.start - b.start || a.end - b.end || a.amount - b.amount);
  const taken = [...busy].map(([id, lists]) => [id, sortedSpans(lists.flatMap(spansIn))] as const).filter(([, spans]) => spans.length > 0);
  return { busy: taken.sort(([a], [b]) => (a < b ? -1 : 1)), lifts: steps(lists(lifts)), heating: steps(heating) };
}
/** Lifts are searched by their start, so they must come in its order. */
function lists(lifts: TakenCalendar["lifts"]): TakenCalendar["lifts"] {
  expect([...lifts.starts]).toEqual([...lifts.starts].sort((a, b) => a - b));
  return lifts;
}
async function expectTheSame(): Promise<void> {
  const [kept, read] = [plainly(await keptNow()), plainly(await readNow())];
  expect(kept).toEqual(read);
}
const onFiring = (text: string, firingId = mine) => owner.query(text, [made.workshopId, firingId]);

describe("a calendar that is kept", () => {
  it("is the same as one that is read anew, before and after every kind of change", async () => {
    await expectTheSame();
    const { firingId } = await bookedRun(made.member, made.northKiln.equipmentId, "Flood");
    await expectTheSame();
    must(await lengthenBooking(made.manager, { firingId, kilnTo: (await kilnEnd(firingId)).add({ hours: 48 }).toString(), reason: "It cools slowly", requestKey: randomUUID() }));
    await expectTheSame();
    await onFiring("UPDATE firing SET heating_hours = heating_hours + 7 WHERE workshop_id = $1 AND firing_id = $2", firingId);
    await expectTheSame();
    await onFiring("UPDATE booking SET starts_at = starts_at - interval '45 minutes' WHERE workshop_id = $1 AND firing_id = $2 AND purpose = 'load'", firingId);
    await expectTheSame();
    must(await cancelRun(made.member, { firingId, requestKey: randomUUID() }));
    await expectTheSame();
  });

  async function kilnEnd(firingId: string): Promise<Temporal.Instant> {
    const { rows } = await onFiring("SELECT ends_at FROM booking WHERE workshop_id = $1 AND firing_id = $2 AND purpose = 'kiln' AND standing", firingId);
    return Temporal.Instant.from((rows[0] as { ends_at: Date }).ends_at.toISOString());
  }

  it("notices what leaves its place: another trolley, a lift at another hour, a row that is deleted", async () => {
    const trolley = randomUUID();
    await owner.query("INSERT INTO equipment (workshop_id, equipment_id, kind, name, limits) VALUES ($1, $2, 'trolley', 'Green trolley', '{\"ratedKg\": 200, \"ownKg\": 40}')", [made.workshopId, trolley]);
    await expectTheSame();
    await owner.query("UPDATE booking SET equipment_id = $3 WHERE workshop_id = $1 AND firing_id = $2 AND purpose = 'unload'", [made.workshopId, mine, trolley]);
    await expectTheSame();
    await onFiring("UPDATE lift SET starts_at = starts_at + interval '30 days', ends_at = ends_at + interval '30 days' WHERE workshop_id = $1 AND firing_id = $2 AND what = 'unload'");
    await expectTheSame();
    await onFiring("DELETE FROM lift WHERE workshop_id = $1 AND firing_id = $2 AND what = 'to-steamer'");
    await expectTheSame();
  });

  it("counts a hold until it is over, though nothing is written then", async () => {
    const casting = await describedCasting(made.otherMember, "Slack water");
    must(await holdRun(made.otherMember, { ...(await firstOffer(made.otherMember, casting, made.southKiln.equipmentId)), requestKey: randomUUID() }));
    await expectTheSame();
    const before = plainly(await keptNow());
    await atInstant(Temporal.Now.instant().add({ hours: 25 }), expectTheSame);
    expect(await atInstant(Temporal.Now.instant().add({ hours: 25 }), async () => plainly(await keptNow()))).not.toEqual(before);
    await expectTheSame();
  });

  it("sees what another transaction had begun to write before it was read, once that ends", async () => {
    await other.query("BEGIN");
    await other.query("UPDATE booking SET ends_at = ends_at + interval '3 hours' WHERE workshop_id = $1 AND firing_id = $2 AND purpose = 'kiln'", [made.workshopId, mine]);
    await expectTheSame();
    await bookedRun(made.member, made.southKiln.equipmentId, "Neap");
    await expectTheSame();
    const before = plainly(await keptNow());
    await other.query("COMMIT");
    await expectTheSame();
    expect(plainly(await keptNow())).not.toEqual(before);
  });

  it("has nothing of what was rolled back", async () => {
    const before = plainly(await keptNow());
    await other.query("BEGIN");
    await other.query("UPDATE lift SET standing = false WHERE workshop_id = $1", [made.workshopId]);
    expect(plainly(await keptNow())).toEqual(before);
    await other.query("ROLLBACK");
    expect(plainly(await keptNow())).toEqual(before);
  });

  it("adds for how long a late firing holds its kiln", async () => {
    await onFiring("UPDATE firing SET status = 'started', expected_end = now() + interval '200 days' WHERE workshop_id = $1 AND firing_id = $2");
    await expectTheSame();
    await onFiring("UPDATE firing SET expected_end = NULL, status = 'planned' WHERE workshop_id = $1 AND firing_id = $2");
    await expectTheSame();
  });

  it("goes on where rows were restored from a database that had counted its transactions further", async () => {
    await owner.query("SET session_replication_role = replica");
    for (const table of ["booking", "lift", "firing"]) await owner.query(`UPDATE ${table} SET changed_in = '900000000000' WHERE workshop_id = $1`, [made.workshopId]);
    await owner.query("SET session_replication_role = DEFAULT");
    await expectTheSame();
    await onFiring("UPDATE booking SET ends_at = ends_at + interval '1 hour' WHERE workshop_id = $1 AND firing_id = $2 AND purpose = 'kiln'");
    await expectTheSame();
  });

  it("is one workshop's own", async () => {
    const stranger = await makeWorkshop(database.ownerUrl);
    const theirs = await inWorkshop(stranger.workshopId, (tx) => keptCalendar(tx, stranger.workshopId, FROM));
    expect([theirs.busy.size, theirs.lifts.starts.length, theirs.heating.starts.length]).toEqual([0, 0, 0]);
    await expectTheSame();
  });
});
