import { Temporal } from "temporal-polyfill";
import type { CastingPlan, Lift, Stage } from "@/lib/domain/firing/casting-plan";
import type { Kiln, Steamer, Trolley } from "@/lib/domain/booking/equipment";
import type { RunQuestion } from "@/lib/domain/booking/run-question";
import type { WorkshopHours } from "@/lib/domain/time/staffed-hours";

/** An invented workshop: Saltmarsh Glass Sheds, Monday to Friday 09:00 to 17:00, three people. */
export const zone = "Europe/Copenhagen";

export const hours: WorkshopHours = {
  timeZone: zone,
  weekly: ([1, 2, 3, 4, 5] as const).map((weekday) => ({ weekday, opensMin: 9 * 60, closesMin: 17 * 60, hands: 3 })),
  closures: [],
};

export function at(text: string): Temporal.Instant {
  return Temporal.PlainDateTime.from(text).toZonedDateTime(zone).toInstant();
}

export function aKiln(equipmentId: string, change: Partial<Kiln["limits"]> = {}): Kiln {
  return {
    kind: "kiln",
    equipmentId,
    name: `Kiln ${equipmentId}`,
    limits: {
      insideMm: [600, 500, 400],
      wallClearanceMm: 40,
      headroomMm: 50,
      shelfLoadKg: 80,
      powerKw: 9,
      lossWPerK: 5.2,
      heatCapacityKJPerK: 45,
      maxC: 950,
      controllerSegments: 32,
      minRateKPerH: 1,
      turnaroundHours: 2,
      ...change,
    },
  };
}

export function aSteamer(equipmentId: string, change: Partial<Steamer["limits"]> = {}): Steamer {
  return { kind: "steamer", equipmentId, name: `Steamer ${equipmentId}`, limits: { insideMm: [500, 500, 500], maxMouldKg: 60, powerKw: 2, ...change } };
}

export function aTrolley(equipmentId: string, ratedKg = 150, ownKg = 30): Trolley {
  return { kind: "trolley", equipmentId, name: `Trolley ${equipmentId}`, limits: { ratedKg, ownKg } };
}

function aLift(what: Lift["what"], hands: number, trolley: boolean, mouldState: Lift["mouldState"]): Lift {
  return { what, kg: 24, hands, mouldState, hot: false, wet: mouldState === "wet", trolley, flag: "amber", why: "24 kg" };
}

export const stages: readonly Stage[] = [
  { stage: "Dry", toC: 100, rateKPerH: 20, hours: 12, why: "" },
  { stage: "Climb", toC: 850, rateKPerH: 60, hours: 12, why: "" },
  { stage: "Flow", toC: 850, rateKPerH: 0, hours: 4, why: "" },
  { stage: "Drop", toC: 480, rateKPerH: -200, hours: 2, why: "" },
  { stage: "Soak", toC: 480, rateKPerH: 0, hours: 20, why: "" },
  { stage: "Slow cool", toC: 400, rateKPerH: -1.5, hours: 60, why: "" },
  { stage: "Run-down", toC: 40, rateKPerH: -10, hours: 36, why: "" },
  { stage: "Open", toC: 25, rateKPerH: 0, hours: 1, why: "" },
];

/** A plan of which only what booking reads matters; a change replaces whole parts. */
export function aPlan(change: Partial<CastingPlan> = {}): CastingPlan {
  return {
    calculation: "sample",
    glass: { name: "soda-lime", pieceKg: 7.5, feederKg: 0.5, headKg: 0.4, residueKg: 0.2, chargeKg: 8.6 },
    pot: { litres: 6, heightMm: 120, diameterMm: 200, kg: 1.5 },
    mould: { wetKg: 15, dryKg: 10, firedKg: 9, powderKg: 9, plasterKg: 4.5, silicaKg: 4.5, waterKg: 5, freeWaterKg: 4, boundWaterKg: 1, outsideMm: [280, 230, 180] },
    waxKg: 3,
    loadMm: { width: 280, depth: 230, height: 320 },
    shelfKg: 25,
    steamOut: { hours: 3, condensateKg: 1.4 },
    drying: { airDaysFrom: 4, airDaysTo: 7 },
    shape: { slabEquivalentMm: 100, volumeL: 3 },
    firing: { stages, hours: 147, annealingHours: 117, peakC: 850 },
    stress: { permanentCentreMPa: 0.4, permanentSurfaceMPa: 0.8, passingMPa: 1, coreSurfaceK: 4, centreNmPerCm: 10 },
    reservation: { hours: 160, kilnWeeks: 160 / 168, marginHours: 13, marginWhy: "" },
    energy: { kWh: 300 },
    lifts: [
      aLift("to-steamer", 1, false, "wet"),
      aLift("from-steamer", 1, false, "wet"),
      aLift("load", 2, true, "wet"),
      aLift("unload", 1, true, "fired"),
    ],
    warnings: [],
    ...change,
  };
}

export function aQuestion(change: Partial<RunQuestion> = {}): RunQuestion {
  return {
    plan: aPlan(),
    driedBeforeLoading: false,
    equipment: [aKiln("A"), aSteamer("S"), aTrolley("T")],
    busy: [],
    lifts: [],
    heating: [],
    powerLimitKw: null,
    hours,
    notBefore: at("2026-12-07T08:00"),
    neededBy: null,
    horizon: at("2027-03-01T00:00"),
    perKiln: 2,
    ...change,
  };
}
