import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import type { LearnedMargin } from "@/lib/domain/firing/learn-margin";

/**
 * A stored plan. It was written by this application from a CastingPlan, is never changed by the
 * database (a trigger refuses), and is read here and nowhere else.
 */
export function storedPlan(outputs: unknown): CastingPlan {
  return outputs as CastingPlan;
}

/** The kiln's own margin that a stored plan was made with; null for the usual one. What was learned since is no change of the casting. */
export function storedMargin(outputs: unknown): LearnedMargin | null {
  return storedPlan(outputs).reservation.margin?.learnedFrom ?? null;
}
