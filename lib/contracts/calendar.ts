import { paths } from "@/lib/contracts/paths";
import type { HoursInSight } from "@/lib/domain/time/hours-in-sight";

export type CalendarPurpose = "steam-out" | "load" | "kiln" | "unload" | "outage" | "closure";

/** Half-open instants in epoch milliseconds, or whole local days, both included. */
export type CalendarTime =
  | { readonly startMs: number; readonly endMs: number }
  | { readonly fromDay: string; readonly toDay: string };

export type CalendarEntry = {
  readonly id: string;
  readonly purpose: CalendarPurpose;
  /** Says what it is and whose, so that nothing hangs on colour. */
  readonly title: string;
  /** Which equipment; null for a closure. */
  readonly place: string | null;
  readonly mine: boolean;
  /** Where it leads; null where there is nothing to see for this person. */
  readonly href: string | null;
} & CalendarTime;

export type CalendarScreen = {
  readonly today: string;
  /** The days that were read, the last not included: outside, nothing is known here. */
  readonly fromDay: string;
  readonly toDay: string;
  readonly hours: HoursInSight;
  readonly entries: readonly CalendarEntry[];
};

export const CALENDAR_VIEWS = ["month", "week", "day"] as const;
export type CalendarView = (typeof CALENDAR_VIEWS)[number];
export type CalendarOf = "mine" | "all";

/** What the address bar of the calendar says. `day` is an ISO day, or null for today. */
export type CalendarPlace = { readonly view: CalendarView; readonly of: CalendarOf; readonly day: string | null };

export function calendarHref({ view, of, day }: CalendarPlace): string {
  const params = new URLSearchParams();
  if (of !== "all") params.set("of", of);
  if (view !== "month") params.set("view", view);
  if (day !== null) params.set("day", day);
  const text = params.toString();
  return text === "" ? paths.calendar : `${paths.calendar}?${text}`;
}
