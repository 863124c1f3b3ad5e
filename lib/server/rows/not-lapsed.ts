import type { Temporal } from "temporal-polyfill";
import { toDate } from "@/lib/server/clock";

/** Firings but those whose hold is over: of them nothing stands any more, whether or not a job has said so yet. */
export function notLapsed(now: Temporal.Instant) {
  return { NOT: { status: "held", heldUntil: { lte: toDate(now) } } };
}
