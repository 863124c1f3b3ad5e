import { z } from "zod";
import { CALENDAR_VIEWS, type CalendarPlace } from "@/lib/contracts/calendar";
import { readDay } from "@/lib/contracts/day";

const Asked = z.object({
  view: z.enum(CALENDAR_VIEWS).catch("month"),
  of: z.enum(["mine", "all"]).catch("all"),
  day: z.string().optional().catch(undefined),
});

/** Reads an address whatever it says; what makes no sense is as if it were left out. */
export function readCalendarPlace(params: Readonly<Record<string, unknown>>): CalendarPlace {
  const { view, of, day } = Asked.parse(params);
  return { view, of, day: readDay(day)?.toString() ?? null };
}
