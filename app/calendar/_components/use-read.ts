import { useRouter } from "next/navigation";
import { useEffect, useTransition } from "react";
import type { Temporal } from "temporal-polyfill";
import { calendarHref, type CalendarPlace, type CalendarScreen } from "@/lib/contracts/calendar";
import { daysInSight } from "./calendar-days";

/**
 * Keeps the address in step with what is shown, so that a way back leads to the same days, and has the
 * page read again when the days in sight reach beyond what was read. True while that is under way.
 */
export function useRead(place: CalendarPlace, day: Temporal.PlainDate, { fromDay, toDay }: Pick<CalendarScreen, "fromDay" | "toDay">): boolean {
  const router = useRouter();
  const [pending, start] = useTransition();
  const { first, last } = daysInSight(day, place.view);
  const known = first.toString() >= fromDay && last.toString() < toDay;
  const href = calendarHref(place);
  useEffect(() => {
    if (known) window.history.replaceState(null, "", href);
    else start(() => router.replace(href, { scroll: false }));
  }, [known, href, router]);
  return pending || !known;
}
