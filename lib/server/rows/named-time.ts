import type { Temporal } from "temporal-polyfill";
import type { BusySpan, HeatingSpan } from "@/lib/domain/booking/run-question";
import { now, toDate, toInstant } from "@/lib/server/clock";
import { sharedTitle } from "@/lib/server/rows/firing-title";
import { heldUntilMs } from "@/lib/server/rows/held-until";
import { LOADING_BY_HAND } from "@/lib/server/rows/loading-by-hand";
import type { Statements } from "@/lib/server/statements";

export type NamedTime = { readonly busy: readonly BusySpan[]; readonly heating: readonly HeatingSpan[] };

export type WhoseTime = {
  /** Whose bookings are named. */
  readonly equipmentIds: readonly string[];
  readonly from: Temporal.Instant;
  readonly until: Temporal.Instant;
};

type Row = {
  readonly equipment_id: string;
  readonly purpose: string;
  readonly starts_at: Date;
  readonly ends_at: Date;
  readonly expected_end: Date | null;
  readonly status: string;
  readonly heating_hours: number;
  readonly power_kw: number | null;
  readonly name: string;
  readonly title: string;
  readonly others: readonly string[];
  readonly load_at: Date | null;
  readonly unload_at: Date | null;
};

/**
 * Who holds a few pieces of equipment within a stretch of time, and which kilns heat in it: for telling people, not
 * for searching.
 * @param without the run that is being moved; it does not stand in its own way
 */
export async function loadNamedTime(tx: Statements, { equipmentIds, from, until }: WhoseTime, without: string | null = null): Promise<NamedTime> {
  const [after, before] = [toDate(from), toDate(until)];
  const rows = await tx.$queryRaw<Row[]>`
    WITH found AS (
      SELECT workshop_id, booking_id FROM booking
       WHERE standing AND equipment_id = ANY (${equipmentIds}::uuid[]) AND during && tstzrange(${after}, ${before})
      UNION
      SELECT workshop_id, booking_id FROM booking WHERE standing AND purpose = 'kiln' AND ends_at > ${after} AND starts_at < ${before}
      UNION
      -- A firing that is known to run over holds its kiln until then, although nobody has lengthened its booking yet.
      SELECT k.workshop_id, k.booking_id FROM firing f
        JOIN booking k ON k.workshop_id = f.workshop_id AND k.firing_id = f.firing_id AND k.purpose = 'kiln' AND k.standing
       WHERE (f.status = 'started' OR f.expected_end > ${after}) AND k.equipment_id = ANY (${equipmentIds}::uuid[])
    )
    SELECT k.equipment_id, k.purpose, k.starts_at, k.ends_at, f.expected_end, f.status, f.heating_hours, (e.limits->>'powerKw')::float8 AS power_kw, m.name, c.title,
           ARRAY (SELECT o.title FROM plan_casting s JOIN casting o ON o.workshop_id = s.workshop_id AND o.casting_id = s.casting_id
                   WHERE s.workshop_id = p.workshop_id AND s.plan_id = p.plan_id AND s.casting_id <> p.casting_id) AS others,
           coalesce((SELECT o.starts_at FROM booking o WHERE o.workshop_id = k.workshop_id AND o.firing_id = k.firing_id AND o.purpose = 'load' AND o.standing), ${LOADING_BY_HAND}) AS load_at,
           (SELECT o.starts_at FROM booking o WHERE o.workshop_id = k.workshop_id AND o.firing_id = k.firing_id AND o.purpose = 'unload' AND o.standing) AS unload_at
      FROM found JOIN booking k ON k.workshop_id = found.workshop_id AND k.booking_id = found.booking_id
      JOIN firing f ON f.workshop_id = k.workshop_id AND f.firing_id = k.firing_id
      JOIN equipment e ON e.workshop_id = k.workshop_id AND e.equipment_id = k.equipment_id
      JOIN member m ON m.workshop_id = f.workshop_id AND m.member_id = f.member_id
      JOIN plan p ON p.workshop_id = f.workshop_id AND p.plan_id = f.plan_id
      JOIN casting c ON c.workshop_id = p.workshop_id AND c.casting_id = p.casting_id
     WHERE (${without}::uuid IS NULL OR k.firing_id <> ${without}::uuid) AND NOT (f.status = 'held' AND f.held_until <= ${toDate(now())})
     ORDER BY k.starts_at, k.booking_id`;
  const wanted = new Set(equipmentIds);
  return {
    busy: rows.filter((row) => wanted.has(row.equipment_id)).map(busySpan),
    heating: rows.filter((row) => row.purpose === "kiln").map(heatingSpan),
  };
}

function busySpan(row: Row): BusySpan {
  const kiln = row.purpose === "kiln";
  const held = { endsMs: row.ends_at.getTime(), expectedMs: row.expected_end?.getTime() ?? null, unloadMs: row.unload_at?.getTime() ?? null, status: row.status };
  return {
    equipmentId: row.equipment_id,
    start: toInstant(row.starts_at),
    end: kiln ? toInstant(new Date(heldUntilMs(held, now().epochMilliseconds))) : toInstant(row.ends_at),
    holder: `${row.name} for ${sharedTitle(row.title, row.others)}`,
    ...(kiln && row.load_at !== null ? { loadingFrom: toInstant(row.load_at) } : {}),
  };
}

function heatingSpan({ equipment_id: kilnId, starts_at, heating_hours, power_kw }: Row): HeatingSpan {
  const start = toInstant(starts_at);
  return { kilnId, start, end: start.add({ seconds: Math.round(heating_hours * 3600) }), kw: power_kw ?? 0 };
}
