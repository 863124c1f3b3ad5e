import { dateOf } from "@/lib/domain/time/zone-days";
import { windowsOfDay, type WorkshopHours } from "@/lib/domain/time/staffed-hours";

/** A stretch in which people are on duty, half-open, epoch milliseconds. */
export type Window = { readonly start: number; readonly end: number; readonly hands: number };

/** The staffed windows of a local day counted from 1 January 1970, in order; each day is worked out once, when it is asked for. */
export type HoursTable = (day: number) => readonly Window[];

/** A workshop asks again and again with the same hours. */
const MOST_KEPT = 16;
const kept = new Map<string, HoursTable>();

export function hoursTable(hours: WorkshopHours): HoursTable {
  const key = JSON.stringify(hours);
  const found = kept.get(key) ?? newTable(hours);
  kept.delete(key);
  kept.set(key, found);
  for (const oldest of kept.keys()) {
    if (kept.size <= MOST_KEPT) break;
    kept.delete(oldest);
  }
  return found;
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
