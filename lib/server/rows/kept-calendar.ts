import type { Temporal } from "temporal-polyfill";
import type { StepList, TakenCalendar } from "@/lib/domain/booking/taken-calendar";
import { LastKept } from "@/lib/domain/numeric/last-kept";
import { now, toDate } from "@/lib/server/clock";
import { calendarOf, heatingOf, LIFT_WEEK, liftsOf, NOTHING, partsStatement, withParts, type InParts, type PartRow, type Parts } from "@/lib/server/rows/calendar-parts";
import { lateSpans, lateStatement, type LateRow } from "@/lib/server/rows/taken-calendar";
import { inTurn, sql, type Sql, type Statements } from "@/lib/server/statements";

/** A calendar as it was read, part by part; never changed, only replaced. */
type Kept = InParts & {
  readonly ground: string;
  /** Every transaction before this one had ended when it was read. */
  readonly xmin: string;
  readonly fromMs: number;
  /** By whose clock it was read, and when the next hold is over by it: then it counts no more, though no row has changed. */
  readonly atMs: number;
  readonly holdOverMs: number;
  readonly lifts: StepList;
  readonly heating: StepList;
};

/** A full calendar of two hundred kilns takes two megabytes. */
const MOST_KEPT = 50;
const kept = new LastKept<string, Kept>(MOST_KEPT);

type News = { readonly ground: string; readonly xmin: string; readonly hold_over: Date | null; readonly pieces: readonly string[]; readonly weeks: readonly number[] };

/**
 * The same as `loadCalendar`, of which only those parts are read that have changed since this process read them
 * (0016_changed_in). For transactions that only read: what another came to nothing with must not be kept.
 */
export async function keptCalendar(tx: Statements, workshopId: string, from: Temporal.Instant): Promise<TakenCalendar> {
  const at = now();
  const known = kept.get(workshopId);
  const [[news], lateRows] = await inTurn<[News[], LateRow[]]>(tx, newsSince(known?.xmin ?? null, at), lateStatement(from));
  const late = lateSpans(lateRows);
  if (news === undefined) throw new Error("no calendar");
  // Where the count of transactions went back, it is another database, or an earlier state of this one.
  const still = known?.ground === news.ground && BigInt(news.xmin) >= BigInt(known.xmin) && known.fromMs <= from.epochMilliseconds && holdsAreAsThen(known, at.epochMilliseconds) ? known : undefined;
  const calendar = kept.keep(workshopId, await upToDate(tx, still, news, from, at));
  return calendarOf(calendar, calendar.lifts, calendar.heating, late);
}

function holdsAreAsThen({ atMs, holdOverMs }: Kept, nowMs: number): boolean {
  return nowMs >= atMs && nowMs < holdOverMs;
}

/** What was written by transactions that had not ended then: which pieces' bookings, and which weeks' lifts. */
function newsSince(xmin: string | null, at: Temporal.Instant): Sql {
  // Rows that were restored from a database that had counted further are no news.
  const since = sql`workshop_id = current_workshop() AND changed_in >= ${xmin}::xid8 AND changed_in < pg_snapshot_xmax(pg_current_snapshot())`;
  return sql`
    WITH touched AS MATERIALIZED (
      SELECT firing_id FROM booking WHERE ${since} UNION SELECT firing_id FROM firing WHERE ${since}
    )
    SELECT ground_id AS ground, pg_snapshot_xmin(pg_current_snapshot())::text AS xmin,
           (SELECT min(held_until) FROM firing WHERE status = 'held' AND held_until > ${toDate(at)}) AS hold_over,
           ARRAY (SELECT DISTINCT b.equipment_id FROM touched t JOIN booking b ON b.workshop_id = current_workshop() AND b.firing_id = t.firing_id)::text[] AS pieces,
           ARRAY (SELECT DISTINCT ${LIFT_WEEK} FROM lift WHERE ${since}) AS weeks
      FROM workshop WHERE workshop_id = current_workshop()`;
}

async function upToDate(tx: Statements, known: Kept | undefined, { ground, xmin, hold_over, pieces, weeks }: News, from: Temporal.Instant, at: Temporal.Instant): Promise<Kept> {
  const since = { ground, xmin, atMs: at.epochMilliseconds, holdOverMs: hold_over?.getTime() ?? Infinity };
  if (known !== undefined && pieces.length === 0 && weeks.length === 0) return { ...known, ...since };
  const parts: Parts = known === undefined ? null : { pieces, weeks };
  const read = withParts(known ?? NOTHING, parts, await tx.$queryRaw<readonly PartRow[]>(partsStatement(from, at, parts)));
  const lifts = weeks.length === 0 && known !== undefined ? known.lifts : liftsOf(read);
  const heating = pieces.length === 0 && known !== undefined ? known.heating : heatingOf(read);
  return { ...since, ...read, fromMs: known?.fromMs ?? from.epochMilliseconds, lifts, heating };
}
