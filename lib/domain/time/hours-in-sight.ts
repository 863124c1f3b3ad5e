import type { Interval } from "@/lib/domain/time/interval";
import type { WorkshopHours } from "@/lib/domain/time/staffed-hours";

/** Whole hours of the local day, the last one not included: 8 to 19 shows 08:00 to 19:00. */
export type HoursInSight = { readonly from: number; readonly to: number };

/** Shown while nobody has entered staffed hours. */
const USUAL: HoursInSight = { from: 8, to: 18 };

/**
 * Which hours a week or day of the calendar must show: the staffed ones with an hour on either side, and
 * every entry that begins and ends on one local day. Entries over several days stand above the hours.
 */
export function hoursInSight(hours: WorkshopHours, entries: readonly Interval[]): HoursInSight {
  let [from, to] = [Infinity, -Infinity];
  for (const { opensMin, closesMin } of hours.weekly) {
    from = Math.min(from, Math.floor(opensMin / 60) - 1);
    to = Math.max(to, Math.ceil(closesMin / 60) + 1);
  }
  if (!(to > from)) ({ from, to } = USUAL);
  for (const entry of entries) {
    const start = entry.start.toZonedDateTimeISO(hours.timeZone);
    const end = entry.end.toZonedDateTimeISO(hours.timeZone);
    if (!start.toPlainDate().equals(end.toPlainDate())) continue;
    from = Math.min(from, start.hour);
    to = Math.max(to, end.minute > 0 || end.second > 0 ? end.hour + 1 : end.hour);
  }
  return { from: Math.max(0, from), to: Math.min(24, to) };
}
