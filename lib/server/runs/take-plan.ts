import { toDate } from "@/lib/server/clock";
import type { Ctx } from "@/lib/server/command";
import type { LockedFiring } from "@/lib/server/rows/lock-firing";
import type { Placed } from "@/lib/server/runs/place-run";
import { toJson } from "@/lib/server/runs/to-json";
import { followPlan } from "@/lib/server/runs/write-check-sheet";

/** Puts a firing of one casting on another plan of it, check sheet and all; the plan it had stays on record. */
export async function takePlan({ tx, who, now }: Ctx, { firingId, plan: { castingId } }: LockedFiring, { plan, planInput }: Pick<Placed, "plan" | "planInput">): Promise<void> {
  const { planId } = await tx.plan.create({
    data: { workshopId: who.workshopId, castingId, calculation: plan.calculation, inputs: toJson(planInput), outputs: toJson(plan), createdAt: toDate(now) },
  });
  await tx.firing.updateMany({ where: { firingId }, data: { planId } });
  await followPlan(tx, { workshopId: who.workshopId, firingId }, plan, [planInput], toDate(now));
}
