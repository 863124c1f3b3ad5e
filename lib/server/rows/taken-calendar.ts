import type { Temporal } from "temporal-polyfill";
import type { SpanList, TakenCalendar } from "@/lib/domain/booking/taken-calendar";
import { now, toDate } from "@/lib/server/clock";
import { heldUntilMs } from "@/lib/server/rows/held-until";
import { busyOf, stepsOfKind, type PackedRow } from "@/lib/server/rows/packed";
import { LOADING_BY_HAND } from "@/lib/server/rows/loading-by-hand";
import { sql, type Sql, type Statements } from "@/lib/server/statements";

export type LateRow = { readonly equipment_id: string; readonly starts_at: Date; readonly ends_at: Date; readonly unload_at: Date | null; readonly expected_end: Date | null; readonly status: string };

/**
 * Everything that still stands from an instant on, in the fewest bytes: what lies behind is not even looked at, and
 * what comes is packed, because a row for each booking costs several times as much.
 * @param without the run that is being moved; it does not stand in its own way
 */
export async function loadCalendar(tx: Statements, from: Temporal.Instant, without: string | null = null): Promise<TakenCalendar> {
  const after = toDate(from);
  const rows = await tx.$queryRaw<PackedRow[]>`
    -- Holds whose time is over: nothing of theirs stands any more, whether or not their jobs have run.
    WITH over AS MATERIALIZED (SELECT firing_id FROM firing WHERE status = 'held' AND held_until <= ${toDate(now())}),
    b AS MATERIALIZED (
      SELECT firing_id, equipment_id, purpose, starts_at, ends_at FROM booking
       WHERE standing AND ends_at > ${after} AND (${without}::uuid IS NULL OR firing_id <> ${without}::uuid) AND firing_id <> ALL (ARRAY (SELECT firing_id FROM over))
    ), kiln AS MATERIALIZED (
      SELECT k.firing_id, k.equipment_id, k.starts_at, k.ends_at, coalesce(l.starts_at, ${LOADING_BY_HAND}, k.starts_at) AS loading
        FROM (SELECT * FROM b WHERE purpose = 'kiln') k LEFT JOIN (SELECT firing_id, starts_at FROM b WHERE purpose = 'load') l USING (firing_id)
    ), heating AS (
      SELECT kiln.starts_at, kiln.starts_at + make_interval(secs => round(f.heating_hours * 3600)) AS ends_at, (e.limits->>'powerKw')::float8 AS kw
        FROM kiln JOIN firing f ON f.workshop_id = current_workshop() AND f.firing_id = kiln.firing_id AND f.status IN ('held','planned','started')
        JOIN equipment e ON e.workshop_id = current_workshop() AND e.equipment_id = kiln.equipment_id
    )
    SELECT 'busy' AS is, equipment_id, string_agg(timestamptz_send(starts_at), '') AS starts, string_agg(timestamptz_send(ends_at), '') AS ends, NULL::bytea AS amounts
      FROM b WHERE purpose <> 'kiln' GROUP BY equipment_id
    UNION ALL
    SELECT 'busy', equipment_id, string_agg(timestamptz_send(loading), ''), string_agg(timestamptz_send(ends_at), ''), NULL FROM kiln GROUP BY equipment_id
    UNION ALL
    SELECT 'heating', NULL, string_agg(timestamptz_send(starts_at), ''), string_agg(timestamptz_send(ends_at), ''), string_agg(float8send(kw), '') FROM heating
    UNION ALL
    SELECT 'lifts', NULL, string_agg(timestamptz_send(starts_at), ''), string_agg(timestamptz_send(ends_at), ''), string_agg(int2send(hands), '')
      FROM (SELECT starts_at, ends_at, hands FROM lift
             WHERE standing AND ends_at > ${after} AND (${without}::uuid IS NULL OR firing_id <> ${without}::uuid) AND firing_id <> ALL (ARRAY (SELECT firing_id FROM over)) ORDER BY starts_at) l`;
  const busy = busyOf(rows);
  for (const [id, spans] of lateSpans(await tx.$queryRaw<LateRow[]>(lateStatement(from, without)))) busy.set(id, [...(busy.get(id) ?? []), ...spans]);
  return { busy, lifts: stepsOfKind(rows, "lifts"), heating: stepsOfKind(rows, "heating") };
}

/** Of each kiln that is held longer than it is booked, until when. */
export function lateSpans(rows: readonly LateRow[]): ReadonlyMap<string, readonly SpanList[]> {
  const late = new Map<string, SpanList[]>();
  for (const row of rows) {
    const span = lateSpan(row);
    if ((span.ends[0] ?? 0) > row.ends_at.getTime()) late.set(row.equipment_id, [...(late.get(row.equipment_id) ?? []), span]);
  }
  return late;
}

/** Kilns that may be held longer than they are booked: said to be late, or started and not opened yet. */
export function lateStatement(from: Temporal.Instant, without: string | null = null): Sql {
  return sql`
    SELECT b.equipment_id, b.starts_at, b.ends_at, f.expected_end, f.status,
           (SELECT u.starts_at FROM booking u WHERE u.workshop_id = f.workshop_id AND u.firing_id = f.firing_id AND u.purpose = 'unload' AND u.standing) AS unload_at
      FROM firing f JOIN booking b ON b.workshop_id = f.workshop_id AND b.firing_id = f.firing_id AND b.purpose = 'kiln' AND b.standing
     WHERE (f.status = 'started' OR f.expected_end > ${toDate(from)}) AND (${without}::uuid IS NULL OR f.firing_id <> ${without}::uuid)`;
}

export function lateSpan({ starts_at, ends_at, unload_at, expected_end, status }: LateRow): SpanList {
  const held = { endsMs: ends_at.getTime(), expectedMs: expected_end?.getTime() ?? null, unloadMs: unload_at?.getTime() ?? null, status };
  return { starts: Float64Array.of(starts_at.getTime()), ends: Float64Array.of(heldUntilMs(held, now().epochMilliseconds)) };
}
