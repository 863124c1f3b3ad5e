import type { Temporal } from "temporal-polyfill";
import type { SpanList, TakenCalendar } from "@/lib/domain/booking/taken-calendar";
import { now, toDate } from "@/lib/server/clock";
import { calendarOf, heatingOf, liftsOf, NOTHING, partsStatement, withParts, type PartRow } from "@/lib/server/rows/calendar-parts";
import { heldUntilMs } from "@/lib/server/rows/held-until";
import { sql, type Sql, type Statements } from "@/lib/server/statements";

export type LateRow = { readonly equipment_id: string; readonly starts_at: Date; readonly ends_at: Date; readonly unload_at: Date | null; readonly expected_end: Date | null; readonly status: string };

/**
 * Everything that still stands from an instant on: what lies behind is not even looked at.
 * @param without the run that is being moved; it does not stand in its own way
 */
export async function loadCalendar(tx: Statements, from: Temporal.Instant, without: string | null = null): Promise<TakenCalendar> {
  const parts = withParts(NOTHING, null, await tx.$queryRaw<readonly PartRow[]>(partsStatement(from, now(), null, without)));
  return calendarOf(parts, liftsOf(parts), heatingOf(parts), lateSpans(await tx.$queryRaw<LateRow[]>(lateStatement(from, without))));
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
