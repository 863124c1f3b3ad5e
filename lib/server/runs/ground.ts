import { Temporal } from "temporal-polyfill";
import type { Equipment } from "@/lib/domain/booking/equipment";
import { FOR_GOOD } from "@/lib/domain/booking/inspection";
import type { BusySpan, NotShown } from "@/lib/domain/booking/run-question";
import type { WeeklyHours, WorkshopHours } from "@/lib/domain/time/staffed-hours";
import { toDate } from "@/lib/server/clock";
import { equipmentOf } from "@/lib/server/rows/equipment";
import { sql, type Sql, type Statements } from "@/lib/server/statements";
import type { Place } from "@/lib/server/who";

/** What every run of a workshop stands on: its equipment, hours, outages and limits, and what the casting's owner was shown. */
export type Ground = {
  readonly equipment: readonly Equipment[];
  /** Counts what is learned of each kiln. */
  readonly recordVersions: ReadonlyMap<string, number>;
  readonly hours: WorkshopHours;
  readonly outages: readonly BusySpan[];
  readonly powerLimitKw: number | null;
  readonly notShown: NotShown | undefined;
};

type Read = {
  readonly power: number | null;
  readonly equipment: readonly { equipmentId: string; kind: string; name: string; limits: unknown; inspectionDue: string | null; needsInduction: boolean; recordVersion: number }[];
  readonly weekly: readonly WeeklyHours[];
  readonly closures: WorkshopHours["closures"];
  readonly outages: readonly { equipmentId: string; startsAt: string; endsAt: string | null; reason: string }[];
  readonly person: string | null;
  readonly notShown: readonly string[];
};

export type GroundOf = {
  readonly from: Temporal.Instant;
  readonly ownerId?: string | undefined;
  /** Leaves the other kilns out. */
  readonly kilnId?: string | undefined;
};

/** In one statement, because a request for each of these seven things costs more than the things. */
export async function loadGround(tx: Statements, who: Place, of: GroundOf): Promise<Ground> {
  const [row] = await tx.$queryRaw<{ readonly ground: Read }[]>(groundStatement(of));
  if (row === undefined) throw new Error("no ground");
  return groundOf(row.ground, who);
}

/** What `loadGround` asks. */
export function groundStatement({ from, ownerId, kilnId }: GroundOf): Sql {
  const [owner, kiln]: readonly (string | null)[] = [ownerId ?? null, kilnId ?? null];
  return sql`
    /* prepared */ SELECT json_build_object(
      'power', (SELECT power_limit_kw FROM workshop WHERE workshop_id = current_workshop()),
      'equipment', (SELECT coalesce(json_agg(json_build_object('equipmentId', equipment_id, 'kind', kind, 'name', name, 'limits', limits, 'inspectionDue', inspection_due,
                       'needsInduction', needs_induction, 'recordVersion', record_version) ORDER BY kind, name), '[]')
                      FROM equipment WHERE retired_at IS NULL AND (kind <> 'kiln' OR ${kiln}::uuid IS NULL OR equipment_id = ${kiln}::uuid)),
      'weekly', (SELECT coalesce(json_agg(json_build_object('weekday', weekday, 'opensMin', opens_min, 'closesMin', closes_min, 'hands', hands) ORDER BY weekday, opens_min), '[]') FROM staffed_hours),
      'closures', (SELECT coalesce(json_agg(json_build_object('from', from_date, 'to', to_date, 'reason', reason) ORDER BY from_date), '[]') FROM closure),
      'outages', (SELECT coalesce(json_agg(json_build_object('equipmentId', equipment_id, 'startsAt', starts_at, 'endsAt', ends_at, 'reason', reason) ORDER BY starts_at), '[]')
                    FROM outage WHERE withdrawn_at IS NULL AND (ends_at IS NULL OR ends_at > ${toDate(from)})),
      'person', (SELECT name FROM member WHERE workshop_id = current_workshop() AND member_id = ${owner}::uuid),
      'notShown', (SELECT coalesce(json_agg(e.equipment_id), '[]') FROM equipment e WHERE e.needs_induction AND e.retired_at IS NULL
                      AND NOT EXISTS (SELECT FROM induction i WHERE i.workshop_id = e.workshop_id AND i.member_id = ${owner}::uuid AND i.equipment_id = e.equipment_id))
    ) AS ground`;
}

function groundOf({ power, equipment, weekly, closures, outages, person, notShown }: Read, who: Place): Ground {
  return {
    equipment: equipment.map((row) => equipmentOf({ ...row, inspectionDue: row.inspectionDue === null ? null : new Date(row.inspectionDue) })),
    recordVersions: new Map(equipment.map(({ equipmentId, recordVersion }) => [equipmentId, recordVersion])),
    hours: { timeZone: who.timeZone, weekly, closures },
    outages: outages.map(({ equipmentId, startsAt, endsAt, reason }) => ({
      equipmentId,
      start: Temporal.Instant.from(startsAt),
      end: endsAt === null ? FOR_GOOD : Temporal.Instant.from(endsAt),
      holder: reason,
    })),
    powerLimitKw: power,
    notShown: person === null || notShown.length === 0 ? undefined : { person, kilnIds: new Set(notShown) },
  };
}
