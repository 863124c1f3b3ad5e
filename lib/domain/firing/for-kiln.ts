import type { Kiln } from "@/lib/domain/booking/equipment";
import type { CastingInput, KilnForPlan } from "./casting-input";

/** The same casting, planned for one kiln: its power, losses, limits and controller. */
export function inputForKiln(input: CastingInput, kiln: Kiln): CastingInput {
  return { ...input, kiln: kilnForPlan(kiln) };
}

function kilnForPlan({ limits }: Kiln): KilnForPlan {
  const { insideMm, powerKw, lossWPerK, heatCapacityKJPerK, maxC, controllerSegments, minRateKPerH } = limits;
  return { insideMm, powerKw, lossWPerK, heatCapacityKJPerK, maxC, controllerSegments, minRateKPerH };
}
