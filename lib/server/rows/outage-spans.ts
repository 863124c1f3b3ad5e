import type { Temporal } from "temporal-polyfill";
import { FOR_GOOD } from "@/lib/domain/booking/inspection";
import type { BusySpan } from "@/lib/domain/booking/run-question";
import { toDate, toInstant } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";

/** The outages that are not over at an instant, each with its reason. */
export async function loadOutageSpans(tx: Tx, from: Temporal.Instant): Promise<readonly BusySpan[]> {
  const outages = await tx.outage.findMany({ where: { withdrawnAt: null, OR: [{ endsAt: null }, { endsAt: { gt: toDate(from) } }] } });
  return outages.map((o) => ({
    equipmentId: o.equipmentId,
    start: toInstant(o.startsAt),
    end: o.endsAt === null ? FOR_GOOD : toInstant(o.endsAt),
    holder: o.reason,
  }));
}
