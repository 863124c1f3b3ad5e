import type { Temporal } from "temporal-polyfill";
import type { SpanList, TakenCalendar } from "@/lib/domain/booking/taken-calendar";
import { MS_PER_DAY } from "@/lib/domain/time/interval";
import { toDate } from "@/lib/server/clock";
import { LOADING_BY_HAND } from "@/lib/server/rows/loading-by-hand";
import { spansByName, spansOf, stepsOfKind, type Packed } from "@/lib/server/rows/packed";
import { lateSpan, type LateRow } from "@/lib/server/rows/taken-calendar";
import { inTurn, sql, type Sql, type Statements } from "@/lib/server/statements";

export type Stretch = { readonly from: Temporal.Instant; readonly to: Temporal.Instant };

/** What one run needs to be looked at: its kiln while it stands in it, steamers, trolleys and people while somebody attends to it, kilowatts while it heats. */
export type Around = {
  readonly kilnId: string;
  readonly inKiln: Stretch;
  readonly attended: readonly Stretch[];
  readonly heating: Stretch;
};

type AroundRow = { readonly is: "attended" | "kiln" | "heating" | "lifts"; readonly names: string | null; readonly starts: Packed; readonly ends: Packed; readonly amounts: Packed };

/** The same as the whole calendar for a run that lies within; a hundredth of the rows. */
export async function loadCalendarAround(tx: Statements, around: Around): Promise<TakenCalendar> {
  const [rows, late] = await inTurn<[AroundRow[], LateRow[]]>(tx, taken(around), lateOn(around.kilnId));
  const busy = new Map<string, SpanList[]>([[around.kilnId, late.map(lateSpan)]]);
  for (const row of rows) {
    if (row.is === "kiln") busy.get(around.kilnId)?.push(spansOf(row));
    if (row.is === "attended") for (const [equipmentId, spans] of spansByName(row)) busy.set(equipmentId, [spans]);
  }
  return { busy, lifts: stepsOfKind(rows, "lifts"), heating: stepsOfKind(rows, "heating") };
}

/** When what reaches into these stretches begins, if it is over within a day; each instant once. */
function beginnings(stretches: readonly Stretch[]): { readonly from: readonly Date[]; readonly to: readonly Date[] } {
  const sorted = stretches.map(({ from, to }) => ({ from: from.epochMilliseconds - MS_PER_DAY, to: to.epochMilliseconds })).sort((a, b) => a.from - b.from);
  const apart: { from: number; to: number }[] = [];
  for (const { from, to } of sorted) {
    const last = apart.at(-1);
    if (last !== undefined && from <= last.to) last.to = Math.max(last.to, to);
    else apart.push({ from, to });
  }
  return { from: apart.map(({ from }) => new Date(from)), to: apart.map(({ to }) => new Date(to)) };
}

function taken({ kilnId, inKiln, attended, heating }: Around): Sql {
  const { from, to } = beginnings(attended);
  const [h1, h2] = [heating.from, heating.to].map(toDate);
  return sql`
    /* prepared */ WITH kiln AS MATERIALIZED (
      SELECT coalesce((SELECT l.starts_at FROM booking l WHERE l.workshop_id = k.workshop_id AND l.firing_id = k.firing_id AND l.purpose = 'load' AND l.standing), ${LOADING_BY_HAND}, k.starts_at) AS loading, k.ends_at
        FROM booking k WHERE k.standing AND k.equipment_id = ${kilnId}::uuid AND k.during && tstzrange(${toDate(inKiln.from)}, ${toDate(inKiln.to)}::timestamptz + interval '1 day')
    ), stretch AS MATERIALIZED (
      SELECT * FROM unnest(${from}::timestamptz[], ${to}::timestamptz[]) AS s (f, t)
    ), attended AS MATERIALIZED (
      SELECT b.* FROM stretch CROSS JOIN LATERAL (
        SELECT equipment_id, starts_at, ends_at FROM booking WHERE workshop_id = current_workshop() AND standing AND purpose <> 'kiln' AND starts_at >= f AND starts_at < t OFFSET 0
      ) b
      UNION ALL
      SELECT equipment_id, starts_at, ends_at FROM booking
       WHERE workshop_id = current_workshop() AND standing AND purpose <> 'kiln' AND ends_at - starts_at > interval '1 day' AND ends_at > (SELECT min(f) FROM stretch) AND starts_at < (SELECT max(t) FROM stretch)
    ), heats AS MATERIALIZED (
      SELECT b.equipment_id, b.starts_at, f.ends_at FROM booking b CROSS JOIN LATERAL (
          SELECT b.starts_at + make_interval(secs => round(heating_hours * 3600)) AS ends_at FROM firing
           WHERE workshop_id = current_workshop() AND firing_id = b.firing_id AND status IN ('held','planned','started') AND heating_hours <= 120 OFFSET 0
        ) f
       WHERE b.standing AND b.purpose = 'kiln' AND b.starts_at > ${h1}::timestamptz - interval '120 hours' AND b.starts_at < ${h2} AND f.ends_at > ${h1}
      UNION ALL
      SELECT b.equipment_id, b.starts_at, b.starts_at + make_interval(secs => round(f.heating_hours * 3600))
        FROM firing f JOIN booking b ON b.workshop_id = f.workshop_id AND b.firing_id = f.firing_id AND b.purpose = 'kiln' AND b.standing
       WHERE f.heating_hours > 120 AND f.status IN ('held','planned','started')
    )
    SELECT 'attended' AS is, string_agg(equipment_id::text, ' ') AS names, string_agg(timestamptz_send(starts_at), '') AS starts, string_agg(timestamptz_send(ends_at), '') AS ends, NULL::bytea AS amounts FROM attended
    UNION ALL
    SELECT 'kiln', NULL, string_agg(timestamptz_send(loading), ''), string_agg(timestamptz_send(ends_at), ''), NULL FROM kiln
    UNION ALL
    SELECT 'heating', NULL, string_agg(timestamptz_send(starts_at), ''), string_agg(timestamptz_send(ends_at), ''),
           string_agg((SELECT float8send((limits->>'powerKw')::float8) FROM equipment e WHERE e.workshop_id = current_workshop() AND e.equipment_id = heats.equipment_id), '') FROM heats
    UNION ALL
    SELECT 'lifts', NULL, string_agg(timestamptz_send(starts_at), ''), string_agg(timestamptz_send(ends_at), ''), string_agg(int2send(hands), '')
      FROM (SELECT l.* FROM stretch CROSS JOIN LATERAL (SELECT starts_at, ends_at, hands FROM lift WHERE workshop_id = current_workshop() AND standing AND starts_at >= f AND starts_at < t OFFSET 0) l ORDER BY starts_at) l`;
}

function lateOn(kilnId: string): Sql {
  return sql`
    /* prepared */ SELECT b.equipment_id, b.starts_at, b.ends_at, f.expected_end, f.status,
           (SELECT u.starts_at FROM booking u WHERE u.workshop_id = f.workshop_id AND u.firing_id = f.firing_id AND u.purpose = 'unload' AND u.standing) AS unload_at
      FROM firing f JOIN booking b ON b.workshop_id = f.workshop_id AND b.firing_id = f.firing_id AND b.purpose = 'kiln' AND b.standing
     WHERE (f.status = 'started' OR f.expected_end IS NOT NULL) AND b.equipment_id = ${kilnId}::uuid`;
}
