import type { CastingPlan } from "@/lib/domain/firing/casting-plan";

/**
 * A stored plan. It was written by this application from a CastingPlan, is never changed by the
 * database (a trigger refuses), and is read here and nowhere else.
 */
export function storedPlan(outputs: unknown): CastingPlan {
  return outputs as CastingPlan;
}
