import type { Temporal } from "temporal-polyfill";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { showTime } from "@/lib/domain/time/show-time";

/** Loading may go faster than planned, so a firing may start this long before its booked hour. Common practice, no source. */
export const EARLY_START_HOURS = 3;

/**
 * Whether a firing may be started at `now`: from three hours before its kiln is booked until that
 * booking ends. Earlier or later the kiln is somebody else's, or the plan no longer fits its time.
 */
export function mayStartAt(kiln: { readonly start: Temporal.Instant; readonly end: Temporal.Instant }, now: Temporal.Instant, timeZone: string): Outcome<true> {
  const earliest = kiln.start.subtract({ hours: EARLY_START_HOURS });
  if (now.epochMilliseconds < earliest.epochMilliseconds) {
    return refuse({
      code: "too-early",
      message: `The kiln is booked from ${showTime(kiln.start, timeZone)}; this firing may start from ${showTime(earliest, timeZone)}. Move the run to start it sooner.`,
      field: "firingId",
      allowed: `from ${showTime(earliest, timeZone)}`,
    });
  }
  if (!(now.epochMilliseconds < kiln.end.epochMilliseconds)) {
    return refuse({
      code: "too-late",
      message: `The kiln was booked until ${showTime(kiln.end, timeZone)}. Move the run to a new time first.`,
      field: "firingId",
      allowed: `before ${showTime(kiln.end, timeZone)}`,
    });
  }
  return ok(true);
}
