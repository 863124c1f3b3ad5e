import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import type { Outcome } from "@/lib/domain/refusal";
import type { MeshBody } from "@/lib/domain/shape/mesh/mesh-body";

/** A plan, and everything it was worked out from. */
export type WhyScreen = {
  readonly castingId: string;
  readonly title: string;
  readonly owner: string;
  /** May change the casting. */
  readonly mayChange: boolean;
  /** Null for a large ideal kiln. */
  readonly kiln: { readonly id: string; readonly name: string } | null;
  readonly input: CastingInput;
  readonly mesh: MeshBody | null;
  readonly planned: Outcome<CastingPlan>;
};
