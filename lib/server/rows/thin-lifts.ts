import type { Temporal } from "temporal-polyfill";
import { handsOnDuty } from "@/lib/domain/time/staffed-hours";
import { toDate, toInstant } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";
import { notLapsed } from "@/lib/server/rows/not-lapsed";
import { loadHours } from "@/lib/server/rows/workshop-hours";
import type { Who } from "@/lib/server/who";

/** How many lifts still to come want more hands than are on duty at their time. */
export async function countThinLifts(tx: Tx, who: Who, now: Temporal.Instant): Promise<number> {
  const hours = await loadHours(tx, who);
  const lifts = await tx.lift.findMany({ where: { standing: true, firing: notLapsed(now), startsAt: { gt: toDate(now) } } });
  return lifts.filter((lift) => handsOnDuty(hours, { start: toInstant(lift.startsAt), end: toInstant(lift.endsAt) }) < lift.hands).length;
}
