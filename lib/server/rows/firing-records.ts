import { firingRecord } from "@/lib/domain/firing/firing-record";
import { recordProblems, type FiringRecord } from "@/lib/domain/firing/learn-margin";
import type { Tx } from "@/lib/server/db";

/** One past firing of a kiln and what it says about it. */
export type KilnRecord = {
  readonly firingId: string;
  readonly kilnId: string;
  readonly title: string;
  readonly startedAt: Date;
  readonly openedAt: Date;
  /** From its start until it was marked opened, whoever waited for what. */
  readonly openedAfterHours: number;
  readonly record: FiringRecord;
};

type Row = {
  readonly firing_id: string;
  readonly kiln_id: string;
  readonly title: string;
  readonly started_at: Date;
  readonly opened_at: Date;
  readonly kiln_to: Date;
  readonly program_hours: number;
  readonly usual_hours: number;
  readonly factor: number;
  readonly put_off: boolean;
  readonly cool_at: Date | null;
};

/** Elements age and are renewed: no more than this many firings of a kiln are looked at, the last ones (common practice, no source). */
const LAST_FIRINGS = 40;
const MS_PER_HOUR = 3_600_000;

/**
 * The firings of every kiln that were started and opened, latest first. One during which its kiln was out of service
 * is left out: it says nothing about the kiln. When a firing was said to be cool, and whether its end was put off
 * while it ran, stands in the record of changes, as both are over once it is opened.
 */
export async function loadFiringRecords(tx: Tx): Promise<readonly KilnRecord[]> {
  const rows = await tx.$queryRaw<Row[]>`
    SELECT * FROM (
      SELECT f.firing_id, k.equipment_id AS kiln_id, c.title, f.started_at, f.opened_at, k.ends_at AS kiln_to,
             (p.outputs->'firing'->>'hours')::float8 AS program_hours,
             coalesce(p.outputs->'reservation'->'margin'->>'usualHours', p.outputs->'reservation'->>'marginHours')::float8 AS usual_hours,
             coalesce((p.outputs->'reservation'->'margin'->'learnedFrom'->>'factor')::float8, 1) AS factor,
             EXISTS (SELECT 1 FROM audit a WHERE a.workshop_id = f.workshop_id AND a.subject = 'firing' AND a.subject_id = f.firing_id::text
                        AND a.action = 'lengthen-booking' AND a.at >= f.started_at) AS put_off,
             (SELECT (a.after->>'expectedEnd')::timestamptz FROM audit a WHERE a.workshop_id = f.workshop_id AND a.subject = 'firing'
                 AND a.subject_id = f.firing_id::text AND a.action = 'set-expected-end' ORDER BY a.audit_id DESC LIMIT 1) AS cool_at,
             row_number() OVER (PARTITION BY k.equipment_id ORDER BY f.opened_at DESC) AS back
        FROM firing f
        JOIN booking k ON k.workshop_id = f.workshop_id AND k.firing_id = f.firing_id AND k.purpose = 'kiln' AND k.standing
        JOIN plan p ON p.workshop_id = f.workshop_id AND p.plan_id = f.plan_id
        JOIN casting c ON c.workshop_id = p.workshop_id AND c.casting_id = p.casting_id
       WHERE f.status = 'opened' AND f.opened_at > f.started_at
         AND NOT EXISTS (SELECT 1 FROM outage o WHERE o.workshop_id = f.workshop_id AND o.equipment_id = k.equipment_id AND o.withdrawn_at IS NULL
                            AND o.starts_at < f.opened_at AND (o.ends_at IS NULL OR o.ends_at > f.started_at))
    ) AS past WHERE back <= ${LAST_FIRINGS} ORDER BY opened_at DESC`;
  return rows.map(kilnRecord).filter(({ record }) => recordProblems(record, "record").length === 0);
}

function kilnRecord(row: Row): KilnRecord {
  const { program_hours: programHours, usual_hours: usualMarginHours, cool_at: coolAt, started_at: startedAt, opened_at: openedAt } = row;
  const openedAfterHours = hoursFrom(startedAt, openedAt);
  const record = firingRecord({
    programHours,
    usualMarginHours,
    heldHours: programHours + row.factor * usualMarginHours,
    openedAfterHours,
    inTime: !row.put_off && openedAt <= row.kiln_to,
    coolAfterHours: coolAt === null ? null : hoursFrom(startedAt, coolAt),
  });
  return { firingId: row.firing_id, kilnId: row.kiln_id, title: row.title, startedAt, openedAt, openedAfterHours, record };
}

function hoursFrom(start: Date, end: Date): number {
  return (end.getTime() - start.getTime()) / MS_PER_HOUR;
}
