import { Temporal } from "temporal-polyfill";
import type { Purpose } from "./run-plan";

/** The run a casting stands on, as far as it matters for what comes next. */
export type StandingRun = {
  readonly status: "planned" | "started" | "opened";
  readonly bookings: readonly { readonly purpose: Purpose; readonly start: Temporal.Instant; readonly end: Temporal.Instant }[];
  /** When the firing is now thought to end, if later or earlier than booked. */
  readonly expectedEnd: Temporal.Instant | null;
  readonly openedAt: Temporal.Instant | null;
};

export type WhatsNext =
  | { readonly step: "book-run" | "asked" }
  /** `overdue`: its booked time has passed and it was not done, as far as anybody said. */
  | { readonly step: "steam-out" | "load" | "in-kiln" | "unload"; readonly at: Temporal.Instant; readonly overdue: boolean }
  | { readonly step: "opened"; readonly at: Temporal.Instant | null };

/**
 * What comes next for a casting at an instant.
 *
 * | run     | time                                  | next                          |
 * |---------|---------------------------------------|-------------------------------|
 * | none    |                                       | book a run, or asked for      |
 * | planned | steam-out not over                    | steam-out, at its start       |
 * | planned | otherwise                             | load, at its start; overdue once the kiln's time began |
 * | started | before the end of the firing          | in the kiln, until then       |
 * | started | from then on                          | unload; overdue once the kiln should be free |
 * | opened  |                                       | opened                        |
 */
export function whatsNext(run: StandingRun | null, asked: boolean, now: Temporal.Instant): WhatsNext {
  if (run === null) return { step: asked ? "asked" : "book-run" };
  if (run.status === "opened") return { step: "opened", at: run.openedAt };
  const of = (purpose: Purpose) => run.bookings.find((booking) => booking.purpose === purpose);
  const kiln = of("kiln");
  if (run.status === "planned") {
    const steam = of("steam-out");
    if (steam !== undefined && isBefore(now, steam.end)) return { step: "steam-out", at: steam.start, overdue: false };
    const load = of("load") ?? kiln;
    return load === undefined ? { step: "book-run" } : { step: "load", at: load.start, overdue: kiln !== undefined && !isBefore(now, kiln.start) && !isBefore(now, load.end) };
  }
  const until = run.expectedEnd ?? of("unload")?.start ?? kiln?.end;
  if (until === undefined) return { step: "book-run" };
  if (isBefore(now, until)) return { step: "in-kiln", at: until, overdue: false };
  return { step: "unload", at: until, overdue: kiln !== undefined && !isBefore(now, kiln.end) };
}

function isBefore(a: Temporal.Instant, b: Temporal.Instant): boolean {
  return Temporal.Instant.compare(a, b) < 0;
}
