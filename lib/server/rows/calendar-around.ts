import type { Temporal } from "temporal-polyfill";
import type { SpanList, TakenCalendar } from "@/lib/domain/booking/taken-calendar";
import { toDate } from "@/lib/server/clock";
import { spansByPlace, spansOf, stepsOfKind, type Packed } from "@/lib/server/rows/packed";
import { lateSpan, type LateRow } from "@/lib/server/rows/taken-calendar";
import { inTurn, sql, type Sql, type Statements } from "@/lib/server/statements";

export type Stretch = { readonly from: Temporal.Instant; readonly to: Temporal.Instant };

/** What one run needs to be looked at: its kiln all the time, steamers and trolleys and people before and after the firing. */
export type Around = {
  readonly kilnId: string;
  /** Steamers and trolleys. */
  readonly otherIds: readonly string[];
  readonly before: Stretch;
  readonly heating: Stretch;
  readonly after: Stretch;
};

/** `places` are those of steamers and trolleys among the others, from one. */
type AroundRow = { readonly is: "others" | "kiln" | "heating" | "lifts"; readonly places: Packed; readonly starts: Packed; readonly ends: Packed; readonly amounts: Packed };

/** The same as the whole calendar for a run that lies within; a hundredth of the rows. */
export async function loadCalendarAround(tx: Statements, around: Around): Promise<TakenCalendar> {
  const [rows, late] = await inTurn<[AroundRow[], LateRow[]]>(tx, taken(around), lateOn(around.kilnId));
  const busy = new Map<string, SpanList[]>([[around.kilnId, late.map(lateSpan)]]);
  for (const row of rows) {
    if (row.is === "kiln") busy.get(around.kilnId)?.push(spansOf(row));
    if (row.is === "others") for (const [place, spans] of spansByPlace(row)) busy.set(around.otherIds[place - 1] ?? "", [spans]);
  }
  return { busy, lifts: stepsOfKind(rows, "lifts"), heating: stepsOfKind(rows, "heating") };
}

function taken({ kilnId, otherIds, before, heating, after }: Around): Sql {
  const [b1, b2, a1, a2, h1, h2] = [before.from, before.to, after.from, after.to, heating.from, heating.to].map(toDate);
  return sql`
    /* prepared */ WITH kiln AS MATERIALIZED (
      SELECT coalesce((SELECT l.starts_at FROM booking l WHERE l.workshop_id = k.workshop_id AND l.firing_id = k.firing_id AND l.purpose = 'load' AND l.standing), k.starts_at) AS loading, k.ends_at
        FROM booking k WHERE k.standing AND k.equipment_id = ${kilnId}::uuid AND k.during && tstzrange(${b1}, ${a2}::timestamptz + interval '1 day')
    ), other AS MATERIALIZED (
      -- Piece by piece and apart, or the planner reads the whole table. No steamer and no trolley is booked for a fortnight on end.
      SELECT piece.place, taken.* FROM unnest(${otherIds}::uuid[]) WITH ORDINALITY AS piece (id, place) CROSS JOIN LATERAL (
        SELECT starts_at, ends_at FROM booking
         WHERE workshop_id = current_workshop() AND equipment_id = piece.id AND standing AND starts_at < ${b2} AND ends_at > ${b1} AND ends_at < ${b2}::timestamptz + interval '14 days'
        UNION ALL
        SELECT starts_at, ends_at FROM booking
         WHERE workshop_id = current_workshop() AND equipment_id = piece.id AND standing AND starts_at < ${a2} AND ends_at > ${a1} AND ends_at < ${a2}::timestamptz + interval '14 days'
      ) AS taken
    ), heats AS MATERIALIZED (
      SELECT b.equipment_id, b.starts_at, f.ends_at FROM booking b CROSS JOIN LATERAL (
          SELECT b.starts_at + make_interval(secs => round(heating_hours * 3600)) AS ends_at FROM firing
           WHERE workshop_id = current_workshop() AND firing_id = b.firing_id AND status IN ('held','planned','started') AND heating_hours <= 336 OFFSET 0
        ) f
       WHERE b.standing AND b.purpose = 'kiln' AND b.starts_at > ${h1}::timestamptz - interval '336 hours' AND b.starts_at < ${h2} AND f.ends_at > ${h1}
      UNION ALL
      SELECT b.equipment_id, b.starts_at, b.starts_at + make_interval(secs => round(f.heating_hours * 3600))
        FROM firing f JOIN booking b ON b.workshop_id = f.workshop_id AND b.firing_id = f.firing_id AND b.purpose = 'kiln' AND b.standing
       WHERE f.heating_hours > 336 AND f.status IN ('held','planned','started')
    )
    SELECT 'others' AS is, string_agg(int2send(place::int2), '') AS places, string_agg(timestamptz_send(starts_at), '') AS starts, string_agg(timestamptz_send(ends_at), '') AS ends, NULL::bytea AS amounts FROM other
    UNION ALL
    SELECT 'kiln', NULL, string_agg(timestamptz_send(loading), ''), string_agg(timestamptz_send(ends_at), ''), NULL FROM kiln
    UNION ALL
    SELECT 'heating', NULL, string_agg(timestamptz_send(starts_at), ''), string_agg(timestamptz_send(ends_at), ''),
           string_agg((SELECT float8send((limits->>'powerKw')::float8) FROM equipment e WHERE e.workshop_id = current_workshop() AND e.equipment_id = heats.equipment_id), '') FROM heats
    UNION ALL
    SELECT 'lifts', NULL, string_agg(timestamptz_send(starts_at), ''), string_agg(timestamptz_send(ends_at), ''), string_agg(int2send(hands), '')
      FROM (SELECT starts_at, ends_at, hands FROM lift WHERE standing AND starts_at > ${b1}::timestamptz - interval '1 day' AND starts_at < ${b2}
            UNION ALL SELECT starts_at, ends_at, hands FROM lift WHERE standing AND starts_at > greatest(${a1}::timestamptz - interval '1 day', ${b2}) AND starts_at < ${a2} ORDER BY starts_at) l`;
}

function lateOn(kilnId: string): Sql {
  return sql`
    /* prepared */ SELECT b.equipment_id, b.starts_at, b.ends_at, f.expected_end, f.status,
           (SELECT u.starts_at FROM booking u WHERE u.workshop_id = f.workshop_id AND u.firing_id = f.firing_id AND u.purpose = 'unload' AND u.standing) AS unload_at
      FROM firing f JOIN booking b ON b.workshop_id = f.workshop_id AND b.firing_id = f.firing_id AND b.purpose = 'kiln' AND b.standing
     WHERE (f.status = 'started' OR f.expected_end IS NOT NULL) AND b.equipment_id = ${kilnId}::uuid`;
}
