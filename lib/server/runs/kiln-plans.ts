import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { inputForKiln, type KilnToPlan } from "@/lib/domain/firing/for-kiln";
import { ok, type Outcome } from "@/lib/domain/refusal";
import type { MeshBody } from "@/lib/domain/shape/mesh/mesh-body";
import { plannedOnce } from "@/lib/server/runs/plan-cache";

/** One casting planned for every kiln, because a kiln's power, losses, controller and margin change its length. */
export type KilnPlans = {
  /** For a large ideal kiln; says what the load itself is like. */
  readonly general: CastingPlan;
  readonly byKiln: ReadonlyMap<string, Outcome<CastingPlan>>;
};

/** Refused only when the casting cannot be planned at all, whatever the kiln. `mesh` is the body of a mesh piece. */
export function kilnPlans(input: CastingInput, kilns: readonly KilnToPlan[], mesh?: MeshBody): Outcome<KilnPlans> {
  const { kiln: _ownKiln, ...anyKiln } = input;
  const general = plannedOnce(anyKiln, mesh);
  if (!general.ok) return general;
  return ok({
    general: general.value,
    byKiln: new Map(kilns.map((kiln) => [kiln.equipmentId, plannedOnce(inputForKiln(input, kiln), mesh)])),
  });
}
