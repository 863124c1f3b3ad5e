import type { Temporal } from "temporal-polyfill";
import { isStillTold, type FeedEntry } from "@/lib/domain/feed/feed-entry";
import { fromPlainDate, toInstant, toPlainDate } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";

/** An outage without an end is drawn for as long as runs are planned ahead, to the first of a month, so that the feed stays the same from day to day. */
const OPEN_END_MONTHS = 19;

export async function outageEntries(tx: Tx, kiln: { readonly equipmentId: string; readonly name: string }, now: Temporal.Instant, timeZone: string): Promise<readonly FeedEntry[]> {
  const rows = await tx.outage.findMany({ where: { equipmentId: kiln.equipmentId } });
  const openEnd = now.toZonedDateTimeISO(timeZone).toPlainDate().with({ day: 1 }).add({ months: OPEN_END_MONTHS }).toZonedDateTime(timeZone).toInstant();
  const entries = rows.map((row): FeedEntry & { readonly end: Temporal.Instant } => ({
    id: row.outageId,
    sequence: row.sequence,
    changedAt: toInstant(row.changedAt),
    cancelled: row.withdrawnAt !== null,
    title: `Out of service: ${kiln.name}`,
    place: kiln.name,
    text: row.endsAt === null ? `${row.reason}\nNo end known.` : row.reason,
    path: null,
    busy: true,
    start: toInstant(row.startsAt),
    end: row.endsAt === null ? openEnd : toInstant(row.endsAt),
  }));
  return entries.filter(({ end, cancelled }) => isStillTold(end, cancelled, now));
}

/** Closures are the whole workshop's, and touch every kiln: it runs on, but nobody loads or unloads it. */
export async function closureEntries(tx: Tx, since: Temporal.Instant, timeZone: string): Promise<readonly FeedEntry[]> {
  const firstDay = since.toZonedDateTimeISO(timeZone).toPlainDate();
  const rows = await tx.closure.findMany({ where: { toDate: { gte: fromPlainDate(firstDay) } } });
  return rows.map((row) => ({
    id: row.closureId,
    sequence: row.sequence,
    changedAt: toInstant(row.changedAt),
    cancelled: false,
    title: /^closed\b/i.test(row.reason) ? row.reason : `Closed: ${row.reason}`,
    place: "",
    text: "Nobody loads or unloads. Kilns run on.",
    path: null,
    busy: true,
    fromDay: toPlainDate(row.fromDate),
    toDay: toPlainDate(row.toDate),
  }));
}
