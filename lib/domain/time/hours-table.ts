import { keepLast } from "@/lib/domain/numeric/keep-last";
import { dateOf, localDay } from "@/lib/domain/time/zone-days";
import { windowsOfDay, type WorkshopHours } from "@/lib/domain/time/staffed-hours";

/** A stretch in which people are on duty, half-open, epoch milliseconds. */
export type Window = { readonly start: number; readonly end: number; readonly hands: number };

/** The staffed windows of a local day counted from 1 January 1970, in order; each day is worked out once, when it is asked for. */
export type HoursTable = (day: number) => readonly Window[];

/** A workshop asks again and again with the same hours. */
const MOST_KEPT = 16;
export const hoursTable: (hours: WorkshopHours) => HoursTable = keepLast(newTable, MOST_KEPT);

/** The same as `handsOnDuty`, for many questions about the same hours. Epoch milliseconds, half-open. */
export function fewestHands(table: HoursTable, timeZone: string, { start, end }: { readonly start: number; readonly end: number }): number {
  let reached = start;
  let fewest = Infinity;
  const last = localDay(end, timeZone);
  for (let day = localDay(start, timeZone); day <= last && reached < end; day++) {
    for (const window of table(day)) {
      if (window.end <= reached || window.start >= end) continue;
      if (window.start > reached) return 0;
      fewest = Math.min(fewest, window.hands);
      reached = window.end;
    }
  }
  return reached >= end && fewest < Infinity ? fewest : 0;
}

function newTable(hours: WorkshopHours): HoursTable {
  const days = new Map<number, readonly Window[]>();
  return (day) => {
    const known = days.get(day);
    if (known !== undefined) return known;
    const windows = windowsOfDay(hours, dateOf(day)).map(({ start, end, hands }) => ({ start: start.epochMilliseconds, end: end.epochMilliseconds, hands }));
    days.set(day, windows);
    return windows;
  };
}
