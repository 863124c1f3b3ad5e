import type { ColdWorkPlan } from "@/lib/domain/coldworking/cold-work";
import { mouldBatches } from "@/lib/domain/firing/casting-batches";
import { coldWorkOf } from "@/lib/domain/firing/casting-cold-work";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { planFiring } from "@/lib/domain/firing/plan";
import type { MouldBatches } from "@/lib/domain/mould/batches";
import { ok, type Outcome } from "@/lib/domain/refusal";
import type { MeshBody } from "@/lib/domain/shape/mesh/mesh-body";

/** The plan as other programs get it: with its promised keys, and beside them what follows from it on the bench. */
export type PlanDocument = CastingPlan & { readonly mould: { readonly batches: MouldBatches | null }; readonly coldWorking: ColdWorkPlan };

/** What the command line prints and a script gets. A piece of shape "mesh" needs `mesh`, the body that its file encloses. */
export function planDocument(input: CastingInput, mesh?: MeshBody): Outcome<PlanDocument> {
  const plan = planFiring(input, mesh);
  if (!plan.ok) return plan;
  const batches = mouldBatches(input, plan.value, mesh);
  if (!batches.ok) return batches;
  const coldWorking = coldWorkOf(input, "usual", "by-shape", mesh);
  if (!coldWorking.ok) return coldWorking;
  return ok({ ...plan.value, mould: { ...plan.value.mould, batches: batches.value }, coldWorking: coldWorking.value });
}
