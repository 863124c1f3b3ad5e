import { Temporal } from "temporal-polyfill";
import { liftsAnswerSchema, type LiftsAnswer } from "@/lib/contracts/api/bookings-answer";
import type { LiftSheet } from "@/lib/server/queries/lift-sheet";
import type { Who } from "@/lib/server/who";

/** The lifts of one day for a script. */
export function liftsAnswer({ day, closedBecause, lifts }: LiftSheet, { timeZone }: Who): LiftsAnswer {
  const instant = (ms: number) => Temporal.Instant.fromEpochMilliseconds(ms).toString();
  return liftsAnswerSchema.parse({
    day, timeZone, closedBecause,
    lifts: lifts.map(({ startMs, endMs, ...lift }) => ({ ...lift, from: instant(startMs), to: instant(endMs) })),
  });
}
