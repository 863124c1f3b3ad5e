import { Temporal } from "temporal-polyfill";
import type { Stage, StageName } from "@/lib/domain/firing/casting-plan";
import { MS_PER_HOUR } from "@/lib/domain/time/interval";

/** One stretch of a kiln bar, to be coloured by its stage. */
export type StageTime = { readonly stage: StageName; readonly start: Temporal.Instant; readonly end: Temporal.Instant };

/** What counts as heating for the electrician's limit: everything before the soak. */
const HEATING: ReadonlySet<StageName> = new Set(["Dry", "Climb", "Flow", "Drop"]);

/**
 * Elapsed hours from door closed until the soak starts. During these the kiln counts with its full
 * rated kilowatts: no diversity is assumed while kilns heat (common practice).
 */
export function heatingHours(stages: readonly Stage[]): number {
  let hours = 0;
  for (const stage of stages) {
    if (!HEATING.has(stage.stage)) break;
    hours += stage.hours;
  }
  return hours;
}

/**
 * When each stage of a firing happens, from door closed; neighbouring segments of one stage are
 * joined. The last stage lasts until the booking ends, so that margin and waiting are seen as what
 * they are; stages that would start after the booked end are left out.
 */
export function stageTimes(stages: readonly Stage[], kilnStart: Temporal.Instant, bookedEnd?: Temporal.Instant): readonly StageTime[] {
  const times: { stage: StageName; start: Temporal.Instant; end: Temporal.Instant }[] = [];
  let hours = 0;
  for (const { stage, hours: length } of stages) {
    const start = after(kilnStart, hours);
    hours += length;
    if (bookedEnd !== undefined && Temporal.Instant.compare(start, bookedEnd) >= 0) break;
    const end = after(kilnStart, hours);
    const last = times.at(-1);
    if (last !== undefined && last.stage === stage) last.end = end;
    else times.push({ stage, start, end });
  }
  const last = times.at(-1);
  if (last !== undefined && bookedEnd !== undefined) last.end = bookedEnd;
  return times.filter((time) => !time.start.equals(time.end));
}

function after(start: Temporal.Instant, hours: number): Temporal.Instant {
  return start.add({ milliseconds: Math.round(hours * MS_PER_HOUR) });
}
