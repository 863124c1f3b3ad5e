import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { planFiring } from "@/lib/domain/firing/plan";

export const KILN = { insideMm: [600, 600, 600], powerKw: 9, lossWPerK: 5.2, heatCapacityKJPerK: 45, maxC: 950, controllerSegments: 32, minRateKPerH: 1 } as const;

/** A brick in a mould with a feeder, in a real kiln. */
export const BRICK: CastingInput = {
  glass: "soda-lime-casting",
  piece: { shape: "brick", sizeMm: [200, 150, 100] },
  cooling: "all-round",
  mould: { wallMm: 40, plasterSilicaWater: [1, 1, 1] },
  feeder: { diameterMm: 30, lengthMm: 60 },
  kiln: KILN,
  stress: "careful",
};

export function slab(thicknessMm: number, over: Partial<CastingInput> = {}): CastingInput {
  return { glass: "soda-lime-casting", piece: { shape: "slab", sizeMm: [thicknessMm] }, cooling: "all-round", stress: "careful", ...over };
}

export function planned(input: CastingInput): CastingPlan {
  const outcome = planFiring(input);
  if (!outcome.ok) throw new Error(outcome.problems.map((problem) => problem.message).join(" "));
  return outcome.value;
}

export function problemsOf(input: CastingInput) {
  const outcome = planFiring(input);
  return outcome.ok ? [] : outcome.problems;
}
