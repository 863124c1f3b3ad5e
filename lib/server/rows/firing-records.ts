import { firingRecord } from "@/lib/domain/firing/firing-record";
import { recordProblems, type FiringRecord } from "@/lib/domain/firing/learn-margin";
import type { Statements } from "@/lib/server/statements";

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
 * The firings of these kilns that were started and opened, latest first. One during which its kiln was out of service
 * is left out: it says nothing about the kiln. When a firing was said to be cool, and whether its end was put off
 * while it ran, stands in the record of changes, as both are over once it is opened.
 */
export async function loadFiringRecords(tx: Statements, kilnIds: readonly string[]): Promise<readonly KilnRecord[]> {
  const rows = await tx.$queryRaw<Row[]>`
    SELECT past.* FROM unnest(${kilnIds}::uuid[]) AS kiln (id), LATERAL (
      SELECT f.firing_id, k.equipment_id AS kiln_id, c.title, f.started_at, f.opened_at, k.ends_at AS kiln_to,
             (p.outputs->'firing'->>'hours')::float8 AS program_hours,
             coalesce(p.outputs->'reservation'->'margin'->>'usualHours', p.outputs->'reservation'->>'marginHours')::float8 AS usual_hours,
             coalesce((p.outputs->'reservation'->'margin'->'learnedFrom'->>'factor')::float8, 1) AS factor,
             EXISTS (SELECT 1 FROM audit a WHERE a.workshop_id = f.workshop_id AND a.subject = 'firing' AND a.subject_id = f.firing_id::text
                        AND a.action = 'lengthen-booking' AND a.at >= f.started_at) AS put_off,
             (SELECT (a.after->>'expectedEnd')::timestamptz FROM audit a WHERE a.workshop_id = f.workshop_id AND a.subject = 'firing'
                 AND a.subject_id = f.firing_id::text AND a.action = 'set-expected-end' ORDER BY a.audit_id DESC LIMIT 1) AS cool_at
        FROM (SELECT b.workshop_id, b.firing_id, b.equipment_id, b.ends_at FROM booking b JOIN firing g ON g.workshop_id = b.workshop_id AND g.firing_id = b.firing_id
               WHERE b.workshop_id = current_workshop() AND b.equipment_id = kiln.id AND b.purpose = 'kiln' AND b.standing
                 AND g.status = 'opened' AND g.opened_at > g.started_at
                 AND NOT EXISTS (SELECT 1 FROM outage o WHERE o.workshop_id = b.workshop_id AND o.equipment_id = b.equipment_id AND o.withdrawn_at IS NULL
                                    AND o.starts_at < g.opened_at AND (o.ends_at IS NULL OR o.ends_at > g.started_at))
               -- Firings of one kiln follow each other, so the last to end are the last that were opened.
               ORDER BY b.ends_at DESC LIMIT ${LAST_FIRINGS}) k
        JOIN firing f ON f.workshop_id = k.workshop_id AND f.firing_id = k.firing_id
        JOIN plan p ON p.workshop_id = f.workshop_id AND p.plan_id = f.plan_id
        JOIN casting c ON c.workshop_id = p.workshop_id AND c.casting_id = p.casting_id
    ) AS past ORDER BY opened_at DESC`;
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
