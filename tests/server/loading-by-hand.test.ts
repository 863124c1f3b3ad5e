import { Temporal } from "temporal-polyfill";
import pg from "pg";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";
import type { SpanList } from "@/lib/domain/booking/taken-calendar";

const database = await useFreshDatabase();
const { closeDatabase, inWorkshop, inWorkshopDirectly } = await import("@/lib/server/db");
const { loadCalendar } = await import("@/lib/server/rows/taken-calendar");
const { loadCalendarAround } = await import("@/lib/server/rows/calendar-around");
const { keptCalendar } = await import("@/lib/server/rows/kept-calendar");
const { loadNamedTime } = await import("@/lib/server/rows/named-time");
const { now } = await import("@/lib/server/clock");
const { bookedRun } = await import("@/tests/helpers/booking");

const owner = new pg.Client({ connectionString: database.ownerUrl });
let shed: MadeWorkshop;
let firingId: string;
let times: { readonly loads: Date; readonly closes: Date; readonly ends: Date };

beforeAll(async () => {
  await owner.connect();
  shed = await makeWorkshop(database.ownerUrl);
  ({ firingId } = await bookedRun(shed.member, shed.northKiln.equipmentId));
  const { rows } = await owner.query<typeof times>(
    "SELECT (SELECT min(starts_at) FROM lift WHERE firing_id = $1 AND what = 'load') AS loads, starts_at AS closes, ends_at AS ends FROM booking WHERE firing_id = $1 AND purpose = 'kiln'",
    [firingId],
  );
  times = rows[0] ?? times;
});
afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

const first = (lists: readonly SpanList[] = []) => Math.min(...lists.flatMap(({ starts }) => [...starts]));

/** From when the kiln is taken, by each way in which the calendar is read. */
async function takenFrom(): Promise<readonly number[]> {
  const kilnId = shed.northKiln.equipmentId;
  const [from, to] = [times.closes, times.ends].map((date) => Temporal.Instant.fromEpochMilliseconds(date.getTime()));
  if (from === undefined || to === undefined) throw new Error("no run");
  const stretch = { from, to };
  const whole = await inWorkshop(shed.workshopId, (tx) => loadCalendar(tx, now()));
  const kept = await inWorkshopDirectly(shed.workshopId, [], (tx) => keptCalendar(tx, shed.workshopId, now()));
  const around = await inWorkshop(shed.workshopId, (tx) => loadCalendarAround(tx, { kilnId, inKiln: stretch, attended: [stretch], heating: stretch }));
  const named = await inWorkshop(shed.workshopId, (tx) => loadNamedTime(tx, { equipmentIds: [kilnId], from, until: to }));
  return [first(whole.busy.get(kilnId)), first(kept.busy.get(kilnId)), first(around.busy.get(kilnId)), named.busy[0]?.loadingFrom?.epochMilliseconds ?? NaN];
}

describe("a kiln that is loaded", () => {
  it("is taken from the loading on, whether or not a trolley is booked for it", async () => {
    expect(times.loads.getTime()).toBeLessThan(times.closes.getTime());
    const loads = Array<number>(4).fill(times.loads.getTime());
    expect(await takenFrom()).toEqual(loads);
    await owner.query("SET session_replication_role = replica");
    await owner.query("DELETE FROM booking WHERE firing_id = $1 AND purpose = 'load'", [firingId]);
    await owner.query("UPDATE booking SET changed_in = pg_current_xact_id() WHERE firing_id = $1", [firingId]);
    await owner.query("SET session_replication_role = DEFAULT");
    expect(await takenFrom()).toEqual(loads);
  });
});
