import type { Temporal } from "temporal-polyfill";
import type { ClashState } from "@/lib/domain/booking/clash";
import { inspectionOutages } from "@/lib/domain/booking/inspection";
import { toDate, toInstant } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";
import { loadEquipment } from "@/lib/server/rows/equipment";
import { loadStandingRuns } from "@/lib/server/rows/standing-runs";
import { loadHours } from "@/lib/server/rows/workshop-hours";
import type { Who } from "@/lib/server/who";

/** Everything on the calendar from now on that could clash. */
export async function loadClashState(tx: Tx, who: Who, now: Temporal.Instant): Promise<ClashState> {
  const equipment = await loadEquipment(tx);
  const workshop = await tx.workshop.findUniqueOrThrow({ where: { workshopId: who.workshopId } });
  const asks = await tx.ask.findMany({
    where: { status: "open" },
    include: { casting: { select: { title: true } }, member: { select: { name: true } } },
  });
  const outages = await tx.outage.findMany({
    where: { withdrawnAt: null, OR: [{ endsAt: null }, { endsAt: { gt: toDate(now) } }] },
  });
  return {
    runs: await loadStandingRuns(tx, equipment, now),
    // An ask without weeks of a kiln stands in nobody's way.
    asks: asks.flatMap((ask) => ask.kilnId === null || ask.wishedFrom === null || ask.wishedTo === null ? [] : [{
      askId: ask.askId,
      title: ask.casting.title,
      memberName: ask.member.name,
      kilnId: ask.kilnId,
      from: toInstant(ask.wishedFrom),
      to: toInstant(ask.wishedTo),
    }]),
    outages: [
      ...outages.map((o) => ({
        outageId: o.outageId,
        equipmentId: o.equipmentId,
        from: toInstant(o.startsAt),
        to: o.endsAt === null ? null : toInstant(o.endsAt),
        reason: o.reason,
      })),
      ...inspectionOutages(equipment, who.timeZone),
    ],
    equipment,
    hours: await loadHours(tx, who),
    powerLimitKw: workshop.powerLimitKw,
    since: now,
  };
}
