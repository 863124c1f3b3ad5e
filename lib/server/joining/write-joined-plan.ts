import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { toDate } from "@/lib/server/clock";
import type { Ctx } from "@/lib/server/command";
import type { OwnedSharer } from "@/lib/server/joining/load-sharers";
import { toJson } from "@/lib/server/runs/to-json";

/** Stores a plan for several castings, kept under one of them; or for the one that is left. Returns its id. */
export async function writeJoinedPlan({ tx, who, now }: Pick<Ctx, "tx" | "who" | "now">, plan: CastingPlan, sharers: readonly OwnedSharer[], keptUnder: string): Promise<string> {
  const { workshopId } = who;
  const lead = sharers.find(({ castingId }) => castingId === keptUnder);
  if (lead === undefined) throw new Error(`a joined plan without its casting ${keptUnder}`);
  const { planId } = await tx.plan.create({
    data: { workshopId, castingId: keptUnder, calculation: plan.calculation, inputs: toJson(lead.input), outputs: toJson(plan), createdAt: toDate(now) },
  });
  if (sharers.length > 1) {
    await tx.planCasting.createMany({ data: sharers.map(({ castingId, input }) => ({ workshopId, planId, castingId, inputs: toJson(input) })) });
  }
  return planId;
}
