import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { planFiring } from "@/lib/domain/firing/plan";
import type { Outcome } from "@/lib/domain/refusal";
import type { MeshBody } from "@/lib/domain/shape/mesh/mesh-body";

/** A plan is some ten kilobytes; a casting has one for each kind of kiln. */
const MOST_KEPT = 2000;
const kept = new Map<string, Outcome<CastingPlan>>();

/**
 * The plan of an input, worked out once in a process. An input holds all that its plan depends on: the kiln's figures
 * and margin too, and a mesh by its id, which never changes once it was read.
 */
export function plannedOnce(input: CastingInput, mesh?: MeshBody): Outcome<CastingPlan> {
  const key = JSON.stringify(input);
  const plan = kept.get(key) ?? planFiring(input, mesh);
  kept.delete(key);
  kept.set(key, plan);
  const oldest = kept.size > MOST_KEPT ? kept.keys().next().value : undefined;
  if (oldest !== undefined) kept.delete(oldest);
  return plan;
}
