import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { liftsOf } from "@/lib/domain/lifting/lifts";

/** A plan of believable figures for a small brick; a test changes what it is about. */
export function planWith(overrides: Partial<CastingPlan> = {}): CastingPlan {
  return {
    calculation: "test",
    glass: { name: "soda-lime casting glass", pieceKg: 7.5, feederKg: 0.5, headKg: 0.6, residueKg: 0.2, chargeKg: 8.8 },
    pot: { litres: 6.1, heightMm: 220, diameterMm: 230, kg: 1.5 },
    mould: {
      wetKg: 14.7, dryKg: 10.7, firedKg: 9.5, powderKg: 9.8, plasterKg: 4.9, silicaKg: 4.9, waterKg: 4.9,
      freeWaterKg: 4, boundWaterKg: 1.2, outsideMm: [280, 230, 180],
    },
    waxKg: 3,
    loadMm: { width: 280, depth: 230, height: 450 },
    shelfKg: 25,
    steamOut: { hours: 3, condensateKg: 1.4 },
    drying: { airDaysFrom: 3, airDaysTo: 11 },
    shape: { slabEquivalentMm: 80, volumeL: 3 },
    firing: {
      stages: [
        { stage: "Flow", toC: 840, rateKPerH: 0, hours: 6, why: "so that it fills" },
        { stage: "Open", toC: 25, rateKPerH: -2, hours: 12.5, why: "so that the middle follows" },
      ],
      hours: 180, annealingHours: 120, peakC: 840,
    },
    stress: { permanentCentreMPa: 0.4, permanentSurfaceMPa: -0.8, passingMPa: 1.4, coreSurfaceK: 5, centreNmPerCm: 11 },
    reservation: { hours: 200, kilnWeeks: 1.2, marginHours: 8, marginWhy: "so that a slow kiln fits" },
    energy: { kWh: 300 },
    lifts: liftsOf({
      wetMouldKg: 14.7, waxKg: 3, dryMouldKg: 10.7, potKg: 1.5, chargeKg: 8.8, firedMouldKg: 5, glassKg: 8.3, driedBeforeLoading: true,
    }).map((lift) => ({ ...lift, flag: "amber" })),
    warnings: [],
    ...overrides,
  };
}
