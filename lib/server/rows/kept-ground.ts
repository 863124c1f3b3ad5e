import { Temporal } from "temporal-polyfill";
import type { Equipment } from "@/lib/domain/booking/equipment";
import { FOR_GOOD } from "@/lib/domain/booking/inspection";
import type { BusySpan } from "@/lib/domain/booking/run-question";
import { LastKept } from "@/lib/domain/numeric/last-kept";
import type { WeeklyHours, WorkshopHours } from "@/lib/domain/time/staffed-hours";
import { toDate } from "@/lib/server/clock";
import { equipmentOf } from "@/lib/server/rows/equipment";
import { sql, type Sql, type Statements } from "@/lib/server/statements";
import type { Place } from "@/lib/server/who";

/** What every run of a workshop stands on, whoever asks. */
export type WholeGround = {
  readonly equipment: readonly Equipment[];
  /** Counts what is learned of each kiln. */
  readonly recordVersions: ReadonlyMap<string, number>;
  readonly hours: WorkshopHours;
  /** Some are over by now. */
  readonly outages: readonly BusySpan[];
  readonly powerLimitKw: number | null;
  /** Of each kiln that asks for an induction, the members who had one. */
  readonly shownTo: ReadonlyMap<string, ReadonlySet<string>>;
};

type Read = {
  readonly id: string;
  readonly power: number | null;
  readonly equipment: readonly { equipmentId: string; kind: string; name: string; limits: unknown; inspectionDue: string | null; needsInduction: boolean; recordVersion: number }[];
  readonly weekly: readonly WeeklyHours[];
  readonly closures: WorkshopHours["closures"];
  readonly outages: readonly { equipmentId: string; startsAt: string; endsAt: string | null; reason: string }[];
  readonly inductions: readonly { equipmentId: string; memberId: string }[];
};

/** A workshop of two hundred kilns takes some hundred kilobytes. */
const MOST_KEPT = 200;
type Kept = { readonly id: string; readonly timeZone: string; readonly from: Temporal.Instant; readonly ground: WholeGround };
const kept = new LastKept<string, Kept>(MOST_KEPT);

/** What `wholeGround` asks first. */
export const GROUND_ID: Sql = sql`/* prepared */ SELECT ground_id AS id FROM workshop WHERE workshop_id = current_workshop()`;

/**
 * Read once in a process for as long as the database's name for it stays (0015_ground); the parts are the same objects then.
 * @param from outages that ended before need not be there
 */
export async function wholeGround(tx: Statements, { workshopId, timeZone }: Place, from: Temporal.Instant): Promise<WholeGround> {
  const [row] = await tx.$queryRaw<readonly { readonly id: string }[]>(GROUND_ID);
  const known = kept.get(workshopId);
  if (known !== undefined && known.id === row?.id && known.timeZone === timeZone && Temporal.Instant.compare(known.from, from) <= 0) return known.ground;
  const [read] = await tx.$queryRaw<readonly { readonly ground: Read }[]>(everything(from));
  if (read === undefined) throw new Error("no ground");
  const { id } = read.ground;
  const ground = groundOf(read.ground, timeZone);
  return kept.keep(workshopId, { id, timeZone, from, ground }).ground;
}

/** In one statement, so that all of it is of one moment and the name is of that too. */
const everything = (from: Temporal.Instant): Sql => sql`
  SELECT json_build_object(
    'id', ground_id, 'power', power_limit_kw,
    'equipment', (SELECT coalesce(json_agg(json_build_object('equipmentId', equipment_id, 'kind', kind, 'name', name, 'limits', limits, 'inspectionDue', inspection_due,
                     'needsInduction', needs_induction, 'recordVersion', record_version) ORDER BY kind, name), '[]') FROM equipment WHERE retired_at IS NULL),
    'weekly', (SELECT coalesce(json_agg(json_build_object('weekday', weekday, 'opensMin', opens_min, 'closesMin', closes_min, 'hands', hands) ORDER BY weekday, opens_min), '[]') FROM staffed_hours),
    'closures', (SELECT coalesce(json_agg(json_build_object('from', from_date, 'to', to_date, 'reason', reason) ORDER BY from_date), '[]') FROM closure),
    'outages', (SELECT coalesce(json_agg(json_build_object('equipmentId', equipment_id, 'startsAt', starts_at, 'endsAt', ends_at, 'reason', reason) ORDER BY starts_at), '[]')
                  FROM outage WHERE withdrawn_at IS NULL AND (ends_at IS NULL OR ends_at > ${toDate(from)})),
    'inductions', (SELECT coalesce(json_agg(json_build_object('equipmentId', equipment_id, 'memberId', member_id)), '[]') FROM induction)
  ) AS ground FROM workshop WHERE workshop_id = current_workshop()`;

function groundOf({ power, equipment, weekly, closures, outages, inductions }: Read, timeZone: string): WholeGround {
  const shownTo = new Map(equipment.filter(({ needsInduction }) => needsInduction).map(({ equipmentId }) => [equipmentId, new Set<string>()]));
  for (const { equipmentId, memberId } of inductions) shownTo.get(equipmentId)?.add(memberId);
  return {
    equipment: equipment.map((row) => equipmentOf({ ...row, inspectionDue: row.inspectionDue === null ? null : new Date(row.inspectionDue) })),
    recordVersions: new Map(equipment.map(({ equipmentId, recordVersion }) => [equipmentId, recordVersion])),
    hours: { timeZone, weekly, closures },
    outages: outages.map(({ equipmentId, startsAt, endsAt, reason }) => ({
      equipmentId,
      start: Temporal.Instant.from(startsAt),
      end: endsAt === null ? FOR_GOOD : Temporal.Instant.from(endsAt),
      holder: reason,
    })),
    powerLimitKw: power,
    shownTo,
  };
}
