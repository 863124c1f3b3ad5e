import type { Kiln } from "@/lib/domain/booking/equipment";
import type { CastingInput, KilnForPlan } from "./casting-input";
import type { LearnedMargin } from "./learn-margin";

/** A kiln and what its own firings say about its margin; null stands for the usual margin. */
export type KilnToPlan = Kiln & { readonly margin: LearnedMargin | null };

/** The same casting, planned for one kiln: its power, losses, limits, controller and margin. */
export function inputForKiln(input: CastingInput, kiln: KilnToPlan): CastingInput {
  return { ...input, kiln: kilnForPlan(kiln) };
}

function kilnForPlan({ limits, margin }: KilnToPlan): KilnForPlan {
  const { insideMm, powerKw, lossWPerK, heatCapacityKJPerK, maxC, controllerSegments, minRateKPerH } = limits;
  return { insideMm, powerKw, lossWPerK, heatCapacityKJPerK, maxC, controllerSegments, minRateKPerH, ...(margin === null ? {} : { margin }) };
}
