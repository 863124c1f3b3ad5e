import type { KilnForPlan } from "@/lib/domain/firing/casting-input";
import type { LoadMasses } from "@/lib/domain/firing/load-masses";
import type { Problem } from "@/lib/domain/refusal";
import { climbRateAt, powerForClimb, type LoadedKiln } from "@/lib/domain/heat/kiln-heat";

/** Mean specific heats on the way to process temperature, J/(kg·K): glass 1050, fired mould and terracotta 1000 (from memory, medium). */
const GLASS_J_PER_KG_K = 1050;
const MOULD_J_PER_KG_K = 1000;

/** What of a load takes up heat; a plan keeps it, so that a stored one can be counted again. */
export type HeatedLoad = Pick<LoadMasses, "glass" | "mould" | "pot">;

export type HeatedKiln = Pick<KilnForPlan, "powerKw" | "lossWPerK" | "heatCapacityKJPerK">;

/** The kiln with this load in it as one lump; undefined stands for a large ideal kiln, which only the load limits. */
export function loadedKiln(kiln: HeatedKiln | undefined, load: HeatedLoad): LoadedKiln | undefined {
  if (kiln === undefined) return undefined;
  return {
    powerW: kiln.powerKw * 1000,
    lossWPerK: kiln.lossWPerK,
    capacityJPerK: kiln.heatCapacityKJPerK * 1000 + loadCapacity(load),
  };
}

export function loadCapacity({ glass, mould, pot }: HeatedLoad): number {
  return glass.chargeKg * GLASS_J_PER_KG_K + (mould.firedKg + pot.kg) * MOULD_J_PER_KG_K;
}

/** The slowest climb anybody would call one, K/h (common practice). */
const LEAST_CLIMB = 5;

/** A kiln too weak to bring this load to its process temperature, with the power that would do. */
export function powerProblem(kiln: LoadedKiln | undefined, processC: number): Problem | undefined {
  if (kiln === undefined || climbRateAt(kiln, processC) >= LEAST_CLIMB) return undefined;
  const powerKw = kiln.powerW / 1000;
  const least = Math.ceil((powerForClimb(kiln, processC, LEAST_CLIMB) / 1000) * 10) / 10;
  return {
    code: "too-weak-kiln", field: "kiln.powerKw", value: powerKw, allowed: `at least ${least} kW`,
    message: `kiln.powerKw is ${powerKw} kW; with its loss and this load the kiln needs at least ${least} kW to climb to ${processC} °C.`,
  };
}

export type Climb = { readonly rateKPerH: number; readonly limitedByPower: boolean };

/** A wished rate, or the slower one that the kiln's power allows at the hot end of the ramp. Never clamps silently: says so. */
export function climbRate(kiln: LoadedKiln | undefined, wishedKPerH: number, toC: number): Climb {
  const most = kiln === undefined ? Infinity : climbRateAt(kiln, toC);
  return most < wishedKPerH ? { rateKPerH: most, limitedByPower: true } : { rateKPerH: wishedKPerH, limitedByPower: false };
}
