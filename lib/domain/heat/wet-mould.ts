import { SECONDS_PER_HOUR } from "@/lib/domain/units";
import { heatStep, type HeatProblem, type Material } from "./conduct";
import { FIRED_MOULD } from "./mould-material";
import { radialGrid } from "./radial-grid";

/** Plaster gives up most of its bound water between these, °C (two steps from 100 °C on, published; the band from memory, medium). */
export const BOUND_WATER_FROM_C = 110;
export const BOUND_WATER_TO_C = 160;
/** Heat that takes a kg of bound water out as steam: about 609 kJ a kg of gypsum, which holds 0.209 of its mass (worked out from heats of formation). */
export const BOUND_WATER_J_PER_KG = 0.609e6 / 0.209;

/** A mould whose water takes up heat over a band of temperatures: the latent heat as so much more capacity there. */
export function withLatentHeat(dry: Material, joulesPerM3: number, fromC: number, toC: number): Material {
  const more = joulesPerM3 / (toC - fromC);
  return {
    conductivity: dry.conductivity,
    capacity: (celsius) => dry.capacity(celsius) + (celsius >= fromC && celsius < toC ? more : 0),
  };
}

const CELLS = 16;
/** No cell moves by more than this share of the band in a step, or it would pass it without giving its heat. */
const BAND_SHARE = 0.05;
/** The wall's inside stands no warmer than the outside asks for, within this, K. */
const THROUGH_K = 5;
const MOST_HOURS = 2000;

export type WallDrying = {
  readonly wallM: number;
  /** Bound water in the wall, kg/m³. */
  readonly boundKgPerM3: number;
  readonly startC: number;
  readonly rateKPerH: number;
  readonly holdC: number;
};

/**
 * Hours to hold a kiln until the bound water of a wall is gone to its inside: conduction through the wall from
 * outside, nothing lost to the cavity, the water's heat taken up on the way. `holdC` has to lie above the band.
 * Stefan's law of the advancing front is its limit for a narrow band.
 */
export function boundWaterHours({ wallM, boundKgPerM3, startC, rateKPerH, holdC }: WallDrying): number {
  const material = withLatentHeat(FIRED_MOULD, boundKgPerM3 * BOUND_WATER_J_PER_KG, BOUND_WATER_FROM_C, BOUND_WATER_TO_C);
  return hoursThrough(wallM, material, BOUND_WATER_TO_C - BOUND_WATER_FROM_C, Math.min(BOUND_WATER_TO_C, holdC - THROUGH_K), { startC, rateKPerH, holdC });
}

/** Hours of the hold at the end of a ramp until the insulated inside of a wall has come to `throughC`. */
export function hoursThrough(wallM: number, material: Material, bandK: number, throughC: number, kiln: { readonly startC: number; readonly rateKPerH: number; readonly holdC: number }): number {
  const problem: HeatProblem = {
    grid: radialGrid("slab", Array.from({ length: CELLS }, () => wallM / CELLS)),
    materials: Array.from({ length: CELLS }, () => material),
    surface: "fixed",
  };
  const rampSeconds = ((kiln.holdC - kiln.startC) / kiln.rateKPerH) * SECONDS_PER_HOUR;
  const kilnAt = (seconds: number): number => Math.min(kiln.holdC, kiln.startC + (kiln.rateKPerH * seconds) / SECONDS_PER_HOUR);
  let temperatures: Float64Array = new Float64Array(CELLS).fill(kiln.startC);
  let seconds = 0;
  let dt = 1;
  while ((temperatures[0] ?? 0) < throughC && seconds < MOST_HOURS * SECONDS_PER_HOUR) {
    const before = temperatures;
    const next = heatStep(problem, before, dt, kilnAt, seconds).temperatures;
    const moved = next.reduce((most, value, i) => Math.max(most, Math.abs(value - (before[i] ?? 0))), 0);
    const strain = moved / (BAND_SHARE * bandK);
    if (strain > 1.2) {
      dt /= 2;
      continue;
    }
    temperatures = next;
    seconds += dt;
    if (strain < 0.6) dt *= 1.5;
  }
  return Math.max(0, seconds - rampSeconds) / SECONDS_PER_HOUR;
}
