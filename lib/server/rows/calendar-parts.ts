import type { Temporal } from "temporal-polyfill";
import { toDate } from "@/lib/server/clock";
import { joined, type SpanList, type StepList, type TakenCalendar } from "@/lib/domain/booking/taken-calendar";
import { LOADING_BY_HAND } from "@/lib/server/rows/loading-by-hand";
import { spansOf, stepsOfRow, type Packed } from "@/lib/server/rows/packed";
import { sql, type Sql } from "@/lib/server/statements";

/** What still stands of a calendar: of one piece of equipment, or the lifts of one week. */
export type PartRow = {
  readonly is: "busy" | "heating" | "lifts";
  readonly equipment_id: string | null;
  /** Weeks of seven days since 1 January 1970, UTC, by the start of the lifts. */
  readonly week: number | null;
  readonly starts: Packed;
  readonly ends: Packed;
  readonly amounts: Packed;
};

/** Which parts are read again; null: everything. */
export type Parts = { readonly pieces: readonly string[]; readonly weeks: readonly number[] } | null;

const WEEK_SECONDS = 7 * 24 * 3600;
export const LIFT_WEEK: Sql = sql`floor(extract(epoch FROM starts_at) / ${WEEK_SECONDS}::float8)::int`;

/**
 * In few bytes: instants one after another, in order of their start, because a row for each booking costs several times
 * as much. A kiln is taken from its loading on. Holds that are over count no more.
 * @param without a run that does not count either
 */
export function partsStatement(from: Temporal.Instant, now: Temporal.Instant, parts: Parts, without: string | null = null): Sql {
  const after = toDate(from);
  const others = without === null ? sql`` : sql`AND firing_id <> ${without}::uuid`;
  const ofPieces = parts === null ? sql`` : sql`AND equipment_id = ANY (${[...parts.pieces]}::uuid[])`;
  const loading = parts === null
    ? sql`LEFT JOIN (SELECT firing_id, starts_at FROM b WHERE purpose = 'load') l USING (firing_id)`
    : sql`LEFT JOIN LATERAL (SELECT o.starts_at FROM booking o WHERE o.workshop_id = current_workshop() AND o.firing_id = k.firing_id AND o.purpose = 'load' AND o.standing) l ON true`;
  const lifts = parts === null
    ? sql`lift WHERE standing AND ends_at > ${after}`
    // Week by week and apart, or the planner reads the whole table.
    : sql`unnest(${[...parts.weeks]}::int[]) AS w (week) CROSS JOIN LATERAL (
        SELECT starts_at, ends_at, hands, firing_id FROM lift
         WHERE workshop_id = current_workshop() AND standing AND starts_at >= to_timestamp(w.week * ${WEEK_SECONDS}::float8) AND starts_at < to_timestamp((w.week + 1) * ${WEEK_SECONDS}::float8) OFFSET 0
      ) o WHERE ends_at > ${after}`;
  return sql`
    WITH over AS MATERIALIZED (SELECT firing_id FROM firing WHERE status = 'held' AND held_until <= ${toDate(now)}),
    b AS MATERIALIZED (
      SELECT firing_id, equipment_id, purpose, starts_at, ends_at FROM booking
       WHERE workshop_id = current_workshop() AND standing AND ends_at > ${after} ${ofPieces} ${others} AND firing_id <> ALL (ARRAY (SELECT firing_id FROM over))
    ), kiln AS MATERIALIZED (
      SELECT k.firing_id, k.equipment_id, k.starts_at, k.ends_at, coalesce(l.starts_at, ${LOADING_BY_HAND}, k.starts_at) AS loading FROM (SELECT * FROM b WHERE purpose = 'kiln') k ${loading}
    ), heats AS (
      SELECT kiln.equipment_id, kiln.starts_at, kiln.starts_at + make_interval(secs => round(f.heating_hours * 3600)) AS ends_at
        FROM kiln JOIN firing f ON f.workshop_id = current_workshop() AND f.firing_id = kiln.firing_id AND f.status IN ('held','planned','started')
    )
    SELECT 'busy' AS is, equipment_id, NULL::int AS week, string_agg(timestamptz_send(starts_at), '' ORDER BY starts_at) AS starts, string_agg(timestamptz_send(ends_at), '' ORDER BY starts_at) AS ends, NULL::bytea AS amounts
      FROM (SELECT equipment_id, starts_at, ends_at FROM b WHERE purpose <> 'kiln' UNION ALL SELECT equipment_id, loading, ends_at FROM kiln) taken GROUP BY equipment_id
    UNION ALL
    SELECT 'heating', heats.equipment_id, NULL, string_agg(timestamptz_send(heats.starts_at), ''), string_agg(timestamptz_send(heats.ends_at), ''), string_agg(float8send((e.limits->>'powerKw')::float8), '')
      FROM heats JOIN equipment e ON e.workshop_id = current_workshop() AND e.equipment_id = heats.equipment_id GROUP BY heats.equipment_id
    UNION ALL
    SELECT 'lifts', NULL, week, string_agg(timestamptz_send(starts_at), '' ORDER BY starts_at), string_agg(timestamptz_send(ends_at), '' ORDER BY starts_at), string_agg(int2send(hands), '' ORDER BY starts_at)
      FROM (SELECT ${LIFT_WEEK} AS week, starts_at, ends_at, hands, firing_id FROM ${lifts}) l
     WHERE firing_id <> ALL (ARRAY (SELECT firing_id FROM over)) ${others} GROUP BY week`;
}

/** A calendar in its parts: what each piece is taken for, what each kiln heats, the lifts of each week. */
export type InParts = { readonly busy: ReadonlyMap<string, readonly SpanList[]>; readonly heats: ReadonlyMap<string, StepList>; readonly weeks: ReadonlyMap<number, StepList> };

export const NOTHING: InParts = { busy: new Map(), heats: new Map(), weeks: new Map() };

/** With what was read in the place of what was known of it. */
export function withParts(known: InParts, parts: Parts, rows: readonly PartRow[]): InParts {
  const [busy, heats, weeks] = [new Map(known.busy), new Map(known.heats), new Map(known.weeks)];
  for (const id of parts?.pieces ?? []) for (const part of [busy, heats]) part.delete(id);
  for (const week of parts?.weeks ?? []) weeks.delete(week);
  for (const row of rows) {
    if (row.week !== null) weeks.set(row.week, stepsOfRow(row, "lifts"));
    else if (row.is === "heating") heats.set(row.equipment_id ?? "", stepsOfRow(row, "heating"));
    else busy.set(row.equipment_id ?? "", [spansOf(row)]);
  }
  return { busy, heats, weeks };
}

export function liftsOf({ weeks }: InParts): StepList {
  return joined([...weeks].sort(([a], [b]) => a - b).map(([, steps]) => steps));
}

export function heatingOf({ heats }: InParts): StepList {
  return joined([...heats.values()]);
}

/** The calendar of these parts; `late` are kilns that are held for longer than they are booked. */
export function calendarOf({ busy }: InParts, lifts: StepList, heating: StepList, late: ReadonlyMap<string, readonly SpanList[]>): TakenCalendar {
  return { busy: late.size === 0 ? busy : new Map([...busy, ...Array.from(late, ([id, spans]) => [id, [...(busy.get(id) ?? []), ...spans]] as const)]), lifts, heating };
}
