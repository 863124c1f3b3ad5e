import { Temporal } from "temporal-polyfill";
import type { Problem } from "@/lib/domain/refusal";
import { showTime } from "@/lib/domain/time/show-time";
import { now, toDate, toInstant } from "@/lib/server/clock";
import { inWorkshop } from "@/lib/server/db";
import { notLapsed } from "@/lib/server/rows/not-lapsed";
import type { Who } from "@/lib/server/who";
import { PLAN_TITLE, titleOf } from "@/lib/server/rows/firing-title";

/**
 * Why Postgres refused an overlap, for people. The refused transaction is gone by now, so the holder
 * is looked up in one of its own: whoever holds the kiln at or after the wanted start.
 */
export async function whoHolds(who: Who, equipmentId: string, from: string): Promise<Problem> {
  const start = Temporal.Instant.from(from);
  const holder = await inWorkshop(who.workshopId, (tx) =>
    tx.booking.findFirst({
      where: { equipmentId, standing: true, endsAt: { gt: toDate(start) }, firing: notLapsed(now()) },
      orderBy: { startsAt: "asc" },
      include: { equipment: true, firing: { include: { member: true, plan: { select: PLAN_TITLE } } } },
    }),
  );
  if (holder === null) {
    return { code: "taken", message: "Somebody else booked part of this run a moment ago. Look at the offers again." };
  }
  const until = toInstant(holder.endsAt);
  const { equipment, firing } = holder;
  return {
    code: `${equipment.kind}-taken`,
    field: "kilnFrom",
    message: `${equipment.name} is held by ${firing.member.name} for ${titleOf(firing.plan)} until ${showTime(until, who.timeZone)}.`,
    data: { equipmentId, firingId: firing.firingId, holder: firing.member.name, until: until.toString() },
  };
}
