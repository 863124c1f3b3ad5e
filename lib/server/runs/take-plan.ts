import { randomUUID } from "node:crypto";
import { toDate } from "@/lib/server/clock";
import type { Ctx } from "@/lib/server/command";
import type { LockedFiring } from "@/lib/server/rows/lock-firing";
import type { Placed } from "@/lib/server/runs/place-run";
import { toJson } from "@/lib/server/runs/to-json";
import { followPlans } from "@/lib/server/runs/write-check-sheet";

type Taken = { readonly firing: Pick<LockedFiring, "firingId" | "plan">; readonly placed: Pick<Placed, "plan" | "planInput"> };

/** Puts a firing of one casting on another plan of it, check sheet and all; the plan it had stays on record. */
export function takePlan(ctx: Ctx, firing: LockedFiring, placed: Taken["placed"]): Promise<void> {
  return takePlans(ctx, [{ firing, placed }]);
}

/** The same for several firings, as quickly as for one. */
export async function takePlans({ tx, who, now }: Ctx, taken: readonly Taken[]): Promise<void> {
  if (taken.length === 0) return;
  const { workshopId } = who;
  const createdAt = toDate(now);
  const numbered = taken.map((one) => ({ ...one, planId: randomUUID() }));
  await tx.plan.createMany({
    data: numbered.map(({ planId, firing, placed: { plan, planInput } }) => ({ workshopId, planId, castingId: firing.plan.castingId, calculation: plan.calculation, inputs: toJson(planInput), outputs: toJson(plan), createdAt })),
  });
  const ids = JSON.stringify(numbered.map(({ planId, firing: { firingId } }) => ({ planId, firingId })));
  await tx.$executeRaw`UPDATE firing f SET plan_id = n."planId" FROM jsonb_to_recordset(${ids}::jsonb) AS n ("planId" uuid, "firingId" uuid) WHERE f.workshop_id = ${workshopId}::uuid AND f.firing_id = n."firingId"`;
  await followPlans(tx, workshopId, taken.map(({ firing: { firingId }, placed: { plan, planInput } }) => ({ firingId, plan, inputs: [planInput] })), createdAt);
}
