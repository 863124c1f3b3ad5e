import { Temporal } from "temporal-polyfill";
import type { BookingRow, EquipmentRow, FiringRow, LiftRow, SettledRows } from "@/lib/domain/settling/rows/settled-rows";
import { keptMoves } from "@/lib/server/rows/kept-moves";
import { sql, type Sql, type Statements } from "@/lib/server/statements";
import { toDate } from "@/lib/server/clock";

type SettlementRow = { readonly moves: unknown; readonly accepted: number; readonly zone: string; readonly power: number | null };
type Ground = Pick<SettledRows, "outages" | "hours" | "closures"> & { readonly equipment: readonly EquipmentRow[] };

/**
 * What a settlement says and what stands for it in the database, read for its check by statements of its own: nothing
 * of this was read, kept or worked out for searching. Undefined when there is no such settlement.
 */
export async function settledRows(tx: Statements, settlementId: string): Promise<SettledRows | undefined> {
  const [kept] = await tx.$queryRaw<readonly SettlementRow[]>`
    SELECT s.moves, ${ms(sql`s.accepted_at`)} AS accepted, w.time_zone AS zone, w.power_limit_kw AS power
      FROM settlement s JOIN workshop w USING (workshop_id) WHERE s.settlement_id = ${settlementId}::uuid`;
  if (kept === undefined) return undefined;
  const at = (iso: string): number => Temporal.Instant.from(iso).epochMilliseconds;
  const moves = keptMoves(kept.moves).map(({ firingId, kilnId, kilnFrom, kilnTo, from }) => ({ firingId, kilnId, kilnFrom: at(kilnFrom), kilnTo: at(kilnTo), before: from === null ? null : { kilnFrom: at(from.kilnFrom) } }));
  const ids = moves.map(({ firingId }) => firingId);
  const accepted = toDate(Temporal.Instant.fromEpochMilliseconds(kept.accepted));
  const [{ ground }] = await tx.$queryRaw<readonly [{ readonly ground: Ground }]>(groundOf(kept.zone));
  return {
    ...ground, moves, timeZone: kept.zone, acceptedAt: kept.accepted, powerLimitKw: kept.power,
    firings: await tx.$queryRaw<readonly FiringRow[]>(firingsOf(ids)),
    bookings: await tx.$queryRaw<readonly BookingRow[]>(bookingsAround(ids, accepted)),
    lifts: await tx.$queryRaw<readonly LiftRow[]>(liftsAround(ids, kept.zone)),
    alsoWritten: await tx.$queryRaw<SettledRows["alsoWritten"]>(writtenBeside(ids)),
  };
}

function ms(instant: Sql): Sql {
  return sql`(extract(epoch FROM ${instant}) * 1000)::float8`;
}

const groundOf = (zone: string): Sql => sql`
  SELECT json_build_object(
    'equipment', (SELECT json_agg(json_build_object('equipmentId', equipment_id, 'kind', kind, 'name', name, 'limits', limits, 'retired', retired_at IS NOT NULL,
        'uninspectedFrom', ${ms(sql`(inspection_due + 1)::timestamp AT TIME ZONE ${zone}`)},
        'shownTo', CASE WHEN needs_induction THEN (SELECT coalesce(json_agg(member_id), '[]') FROM induction i WHERE i.workshop_id = e.workshop_id AND i.equipment_id = e.equipment_id) END)) FROM equipment e),
    'outages', (SELECT coalesce(json_agg(json_build_object('equipmentId', equipment_id, 'from', ${ms(sql`starts_at`)}, 'to', ${ms(sql`ends_at`)}, 'reason', reason)), '[]') FROM outage WHERE withdrawn_at IS NULL),
    'hours', (SELECT coalesce(json_agg(json_build_object('weekday', weekday, 'opensMin', opens_min, 'closesMin', closes_min, 'hands', hands)), '[]') FROM staffed_hours),
    'closures', (SELECT coalesce(json_agg(json_build_object('from', from_date, 'to', to_date)), '[]') FROM closure)) AS ground`;

const firingsOf = (ids: readonly string[]): Sql => sql`
  SELECT f.firing_id AS "firingId", f.member_id AS "ownerId", f.status, f.purposes,
         (SELECT string_agg(c.title, ' and ' ORDER BY c.title) FROM firing_casting s JOIN casting c USING (workshop_id, casting_id) WHERE s.workshop_id = f.workshop_id AND s.firing_id = f.firing_id AND s.standing) AS title,
         ARRAY (SELECT casting_id FROM firing_casting s WHERE s.workshop_id = f.workshop_id AND s.firing_id = f.firing_id AND s.standing)::text[] AS "castingIds",
         (SELECT count(*)::int FROM ask a JOIN firing_casting s USING (workshop_id, casting_id) WHERE s.workshop_id = f.workshop_id AND s.firing_id = f.firing_id AND s.standing AND a.status = 'open') AS "openAsks",
         jsonb_build_object('castingId', p.casting_id, 'loadMm', o->'loadMm', 'shelfKg', o->'shelfKg', 'peakC', o->'firing'->'peakC', 'reservationHours', o->'reservation'->'hours', 'lifts', o->'lifts',
           'moulds', CASE WHEN o ? 'castings' THEN (SELECT jsonb_agg(${mould(sql`one`, sql`one->'castingId'`, sql`one->'driedBeforeLoading'`)}) FROM jsonb_array_elements(o->'castings') AS one)
             ELSE jsonb_build_array(${mould(sql`o`, sql`p.casting_id`, sql`coalesce(p.inputs->'mould'->'driedBeforeLoading', 'false')`)}) END) AS plan
    FROM firing f JOIN plan p USING (workshop_id, plan_id) CROSS JOIN LATERAL (SELECT p.outputs AS o OFFSET 0) AS outputs
   WHERE f.firing_id = ANY (${ids}::uuid[])`;

function mould(of: Sql, castingId: Sql, dried: Sql): Sql {
  return sql`jsonb_build_object('castingId', ${castingId}, 'outsideMm', ${of}->'mould'->'outsideMm', 'investedKg', (${of}->'mould'->>'wetKg')::float8 + (${of}->>'waxKg')::float8,
    'steamHours', ${of}->'steamOut'->'hours', 'dried', ${dried}, 'airDaysFrom', ${of}->'drying'->'airDaysFrom')`;
}

/** Those of the moved runs, and all that stands while any of them does; what runs over its time stands on. */
const bookingsAround = (ids: readonly string[], accepted: Date): Sql => sql`
  WITH own AS (SELECT min(starts_at) AS a, max(ends_at) + interval '1 day' AS b FROM booking WHERE firing_id = ANY (${ids}::uuid[]) AND standing)
  SELECT b.firing_id AS "firingId", c.title, f.status, b.equipment_id AS "equipmentId", b.purpose, b.casting_id AS "castingId", ${ms(sql`b.starts_at`)} AS "from", ${ms(sql`b.ends_at`)} AS "to",
         f.heating_hours AS "heatingHours", ${ms(sql`f.expected_end`)} AS "expectedEnd",
         CASE WHEN b.purpose = 'kiln' THEN (SELECT ${ms(sql`min(l.starts_at)`)} FROM lift l WHERE l.workshop_id = b.workshop_id AND l.firing_id = b.firing_id AND l.what = 'load' AND l.standing) END AS "loadFrom",
         CASE WHEN b.purpose = 'kiln' THEN (SELECT ${ms(sql`min(l.starts_at)`)} FROM lift l WHERE l.workshop_id = b.workshop_id AND l.firing_id = b.firing_id AND l.what = 'unload' AND l.standing) END AS "unloadFrom"
    FROM own, booking b JOIN firing f USING (workshop_id, firing_id) JOIN plan p USING (workshop_id, plan_id) JOIN casting c ON c.workshop_id = p.workshop_id AND c.casting_id = p.casting_id
   WHERE b.standing AND (b.during && tstzrange(own.a, own.b) OR f.expected_end > own.a) AND NOT (f.status = 'held' AND f.held_until <= ${accepted})`;

const liftsAround = (ids: readonly string[], zone: string): Sql => sql`
  WITH own AS (SELECT min(starts_at) AS a, max(ends_at) AS b FROM lift WHERE firing_id = ANY (${ids}::uuid[]) AND standing)
  SELECT l.firing_id AS "firingId", l.casting_id AS "castingId", l.trolley_id AS "trolleyId", l.what, ${ms(sql`l.starts_at`)} AS "from", ${ms(sql`l.ends_at`)} AS "to", l.kg, l.hands::int,
         to_char(here.a, 'YYYY-MM-DD') AS day, extract(isodow FROM here.a)::int AS weekday, (extract(epoch FROM here.a - date_trunc('day', here.a)) / 60)::float8 AS "fromMin",
         (extract(epoch FROM here.b - date_trunc('day', here.a)) / 60)::float8 AS "toMin"
    FROM own, lift l CROSS JOIN LATERAL (SELECT l.starts_at AT TIME ZONE ${zone} AS a, l.ends_at AT TIME ZONE ${zone} AS b) AS here
   WHERE l.standing AND l.starts_at < own.b AND l.starts_at > own.a - interval '1 day' AND l.ends_at > own.a`;

/** What the transaction that moved the runs wrote of other firings; a hold that was over is no longer one. */
const writtenBeside = (ids: readonly string[]): Sql => sql`
  WITH own AS (SELECT max(changed_in::text::numeric)::text::xid8 AS xid FROM firing WHERE firing_id = ANY (${ids}::uuid[])),
  written AS (
    SELECT firing_id FROM booking, own WHERE workshop_id = current_workshop() AND changed_in = own.xid UNION
    SELECT firing_id FROM lift, own WHERE workshop_id = current_workshop() AND changed_in = own.xid UNION
    SELECT firing_id FROM firing, own WHERE workshop_id = current_workshop() AND changed_in = own.xid
  )
  SELECT c.title, f.status FROM written JOIN firing f USING (firing_id) JOIN plan p USING (workshop_id, plan_id) JOIN casting c ON c.workshop_id = p.workshop_id AND c.casting_id = p.casting_id
   WHERE f.firing_id <> ALL (${ids}::uuid[]) AND f.status <> 'lapsed'`;
