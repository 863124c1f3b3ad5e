import { Temporal } from "temporal-polyfill";
import type { Interval } from "@/lib/domain/time/interval";
import { ok, refusalOf, type Outcome, type Problem } from "@/lib/domain/refusal";

/** When people are in the workshop, by its own wall clock. Weekday 1 is Monday; minutes count from local midnight. */
export type WorkshopHours = {
  /** IANA name, e.g. "Europe/Copenhagen". */
  readonly timeZone: string;
  readonly weekly: readonly WeeklyHours[];
  readonly closures: readonly Closure[];
};
export type Weekday = 1 | 2 | 3 | 4 | 5 | 6 | 7;
export type WeeklyHours = {
  readonly weekday: Weekday;
  readonly opensMin: number;
  readonly closesMin: number;
  /** People on duty who can lift. */
  readonly hands: number;
};
/** Local dates "YYYY-MM-DD", both days closed. */
export type Closure = { readonly from: string; readonly to: string; readonly reason: string };

export type StaffedWindow = Interval & { readonly hands: number };

const MINUTES_PER_DAY = 24 * 60;

/** Refuses hours that close before they open, that overlap, or that lie outside the day, and closures that end before they start. */
export function checkWorkshopHours(hours: WorkshopHours): Outcome<WorkshopHours> {
  const problems = [
    ...zoneProblems(hours.timeZone),
    ...hours.weekly.flatMap(weeklyProblems),
    ...overlapProblems(hours.weekly),
    ...hours.closures.flatMap(closureProblems),
  ];
  return refusalOf(problems) ?? ok(hours);
}

function zoneProblems(timeZone: string): Problem[] {
  try {
    Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(timeZone);
    return [];
  } catch {
    return [{ code: "unknown-zone", field: "timeZone", value: timeZone, message: `"${timeZone}" is not a known time zone; use a name such as Europe/Copenhagen.` }];
  }
}

function weeklyProblems(day: WeeklyHours, at: number): Problem[] {
  const field = `weekly.${at}`;
  const problems: Problem[] = [];
  if (!Number.isInteger(day.weekday) || day.weekday < 1 || day.weekday > 7) {
    problems.push({ code: "out-of-range", field: `${field}.weekday`, value: day.weekday, allowed: "1 (Monday) to 7 (Sunday)", message: `Weekday ${day.weekday} must be 1 (Monday) to 7 (Sunday).` });
  }
  if (!(day.opensMin >= 0 && day.opensMin < MINUTES_PER_DAY)) {
    problems.push({ code: "out-of-range", field: `${field}.opensMin`, value: day.opensMin, allowed: "0 to 1439 minutes after midnight", message: `Opening at minute ${day.opensMin} must be 0 to 1439 minutes after midnight.` });
  }
  if (!(day.closesMin > day.opensMin && day.closesMin <= MINUTES_PER_DAY)) {
    problems.push({ code: "closes-before-opening", field: `${field}.closesMin`, value: day.closesMin, allowed: `${day.opensMin + 1} to 1440 minutes after midnight`, message: `Closing at ${clock(day.closesMin)} must be after opening at ${clock(day.opensMin)} and no later than 24:00.` });
  }
  if (!Number.isInteger(day.hands) || day.hands < 1) {
    problems.push({ code: "out-of-range", field: `${field}.hands`, value: day.hands, allowed: "a whole number of people, 1 or more", message: `Hands on duty ${day.hands} must be a whole number, 1 or more.` });
  }
  return problems;
}

function overlapProblems(weekly: readonly WeeklyHours[]): Problem[] {
  const problems: Problem[] = [];
  weekly.forEach((a, i) => {
    weekly.slice(i + 1).forEach((b, j) => {
      if (a.weekday === b.weekday && a.opensMin < b.closesMin && b.opensMin < a.closesMin) {
        problems.push({ code: "hours-overlap", field: `weekly.${i + 1 + j}`, message: `Hours ${clock(b.opensMin)} to ${clock(b.closesMin)} overlap ${clock(a.opensMin)} to ${clock(a.closesMin)} on the same weekday; split them so that they only touch.` });
      }
    });
  });
  return problems;
}

function closureProblems(closure: Closure, at: number): Problem[] {
  const from = plainDate(closure.from);
  const to = plainDate(closure.to);
  if (from === undefined || to === undefined) {
    const [name, value] = from === undefined ? ["from", closure.from] : ["to", closure.to];
    return [{ code: "not-a-date", field: `closures.${at}.${name}`, value, allowed: "a date as YYYY-MM-DD", message: `"${value}" is not a date; write it as YYYY-MM-DD.` }];
  }
  if (Temporal.PlainDate.compare(to, from) < 0) {
    return [{ code: "end-before-start", field: `closures.${at}.to`, value: closure.to, allowed: `${closure.from} or later`, message: `The closure's last day ${closure.to} lies before its first day ${closure.from}.` }];
  }
  return [];
}

function plainDate(text: string): Temporal.PlainDate | undefined {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return undefined;
  try {
    return Temporal.PlainDate.from(text, { overflow: "reject" });
  } catch {
    return undefined;
  }
}

function clock(minutes: number): string {
  return `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
}

/**
 * The instant at which the wall clock shows a time. A time that the spring change skips is the
 * moment of the change itself, so a window inside the skipped hour has no length; a time that the
 * autumn change shows twice is its first showing.
 */
export function wallInstant(date: Temporal.PlainDate, minutes: number, timeZone: string): Temporal.Instant {
  const wall = date.toPlainDateTime().add({ minutes });
  const zoned = wall.toZonedDateTime(timeZone, { disambiguation: "compatible" });
  if (zoned.toPlainDateTime().equals(wall)) return zoned.toInstant();
  const change = zoned.add({ nanoseconds: 1 }).getTimeZoneTransition("previous");
  return (change ?? zoned).toInstant();
}

/** The windows of one local day, in order, already free of closures. */
export function windowsOfDay(hours: WorkshopHours, date: Temporal.PlainDate): StaffedWindow[] {
  const iso = date.toString();
  if (hours.closures.some((closure) => closure.from <= iso && iso <= closure.to)) return [];
  return hours.weekly
    .filter((day) => day.weekday === date.dayOfWeek)
    .map((day) => ({
      start: wallInstant(date, day.opensMin, hours.timeZone),
      end: wallInstant(date, day.closesMin, hours.timeZone),
      hands: day.hands,
    }))
    .filter((window) => Temporal.Instant.compare(window.start, window.end) < 0)
    .sort((a, b) => Temporal.Instant.compare(a.start, b.start));
}

/** Staffed windows that overlap [from, to), in order, cut to it; computed as they are asked for. */
export function* staffedWindows(hours: WorkshopHours, from: Temporal.Instant, to: Temporal.Instant): Generator<StaffedWindow, void, undefined> {
  let date = from.toZonedDateTimeISO(hours.timeZone).toPlainDate();
  const last = to.toZonedDateTimeISO(hours.timeZone).toPlainDate();
  while (Temporal.PlainDate.compare(date, last) <= 0) {
    for (const window of windowsOfDay(hours, date)) {
      const start = Temporal.Instant.compare(window.start, from) < 0 ? from : window.start;
      const end = Temporal.Instant.compare(window.end, to) > 0 ? to : window.end;
      if (Temporal.Instant.compare(start, end) < 0) yield { start, end, hands: window.hands };
    }
    date = date.add({ days: 1 });
  }
}

/** How many days ahead a staffed day is looked for before the workshop counts as never staffed. */
const LOOK_AHEAD_DAYS = 400;

/** The first staffed local day after the given one, or null when there is none within 400 days. */
export function nextStaffedDay(hours: WorkshopHours, after: Temporal.PlainDate): Temporal.PlainDate | null {
  for (let ahead = 1; ahead <= LOOK_AHEAD_DAYS; ahead++) {
    const date = after.add({ days: ahead });
    if (windowsOfDay(hours, date).length > 0) return date;
  }
  return null;
}

/** True when somebody is on duty during the whole interval; windows that touch count as one. */
export function isStaffed(hours: WorkshopHours, interval: Interval): boolean {
  return handsOnDuty(hours, interval) > 0;
}

/** The fewest hands on duty at any instant of the interval; 0 when any part of it is unstaffed or it is empty. */
export function handsOnDuty(hours: WorkshopHours, interval: Interval): number {
  let reached = interval.start;
  let fewest = Infinity;
  for (const window of staffedWindows(hours, interval.start, interval.end)) {
    if (Temporal.Instant.compare(window.start, reached) > 0) return 0;
    fewest = Math.min(fewest, window.hands);
    reached = window.end;
  }
  return Temporal.Instant.compare(reached, interval.end) >= 0 && fewest < Infinity ? fewest : 0;
}
