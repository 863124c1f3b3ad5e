import type { Glass } from "@/lib/domain/glass/glass";
import { kelvinPerDecade, LOG_STRAIN, temperatureAt } from "@/lib/domain/glass/viscosity";
import { diffusivity } from "@/lib/domain/heat/glass-heat";
import type { CoolingBody } from "@/lib/domain/shape/cooling-body";
import { perHour, perSecond, ROOM_C } from "@/lib/domain/units";
import { structuralFactor } from "./structural-factor";
import type { StressLimits } from "./stress-level";

/** One ramp of the glass surface: down to `toC` at no more than `rateKPerH` (> 0). */
export type CoolingRamp = { readonly toC: number; readonly rateKPerH: number };

export type SlowCool = {
  /** Where the soak holds. */
  readonly soakC: number;
  /** While stress is being frozen in. */
  readonly freezing: CoolingRamp;
  /** Just below, where a last part can still relax. */
  readonly settling: CoolingRamp;
  /** Down to room temperature, limited by passing tension alone. */
  readonly rundownRateKPerH: number;
  /** Core over surface while freezing, K. */
  readonly coreSurfaceK: number;
};

export type SlowCoolStress = {
  readonly permanentCentreMPa: number;
  readonly permanentSurfaceMPa: number;
  readonly passingMPa: number;
  readonly coreSurfaceK: number;
};

/** The soak holds where the viscosity is 10^13: stress there is gone in minutes, yet the glass is stiff. */
const LOG_SOAK = 13;
/** The strain point is defined for cooling at 4 K/min (ASTM C336). */
const STRAIN_POINT_RATE_K_PER_H = 240;
/** Below the temperature of freezing: about two decades more of viscosity (common practice in tables: 20 to 40 K). */
const FREEZING_MARGIN_K = 30;
/** Over the next 50 K the rate doubles (handbook schedules of the 1950s and both thick-slab tables: 1.8 to 2). */
const SETTLING_SPAN_K = 50;
const SETTLING_RATIO = 2;

/**
 * How fast a body may cool from its soak, by the quasi-steady law.
 *
 * A body whose surface cools at q is warmer inside by q·u/κ. Stress relaxes while it passes the
 * transition; on reaching one temperature the difference turns into permanent stress of the opposite
 * sign, f·S·q·u/κ with S = Eα/(1−ν) and f the structural factor (Adams & Williamson 1920; Bartenev).
 * Below, S·q·u/κ adds as passing stress. Units: K/h, °C. Valid when each ramp lasts longer than the
 * body needs to follow it (t²/κ), that is for all thick castings; a transient model may replace this
 * law behind the same function. `fastestKPerH` is what kiln and mould can follow at most; every rate
 * keeps below it.
 *
 * @example slowCool(catalogueGlass("soda-lime-casting"), slabBody(0.1), CAREFUL).freezing.rateKPerH // ≈ 1
 */
export function slowCool(glass: Glass, body: CoolingBody, limits: StressLimits, fastestKPerH = Infinity): SlowCool {
  const soakC = temperatureAt(glass.viscosity, LOG_SOAK);
  const freezingRate = Math.min(fastestKPerH, freezingRateKPerH(glass, body, limits));
  const freezeToC = endOfFreezing(glass, freezingRate);
  const rundown = Math.min(fastestKPerH, rundownRateKPerH(glass, body, limits, freezingRate));
  return {
    soakC,
    freezing: { toC: freezeToC, rateKPerH: freezingRate },
    settling: { toC: freezeToC - SETTLING_SPAN_K, rateKPerH: Math.min(SETTLING_RATIO * freezingRate, rundown) },
    rundownRateKPerH: rundown,
    coreSurfaceK: slowCoolStress(glass, body, freezingRate, 0).coreSurfaceK,
  };
}

/** The fastest that cold glass may be heated, K/h: S·q·u/κ is then tension in the core. */
export function heatingRateKPerH(glass: Glass, body: CoolingBody, tensionMPa: number): number {
  return perHour((tensionMPa * coldDiffusivity(glass)) / (stiffness(glass) * body.centreM2));
}

/** The stresses of a body that froze at one rate and ran down at another, K/h. Tension is positive. */
export function slowCoolStress(glass: Glass, body: CoolingBody, freezingRate: number, rundownRate: number): SlowCoolStress {
  const frozen = structuralFactor(glass) * stiffness(glass) * (perSecond(freezingRate) / freezingDiffusivity(glass));
  const running = stiffness(glass) * (perSecond(rundownRate) / coldDiffusivity(glass));
  return {
    permanentCentreMPa: frozen * body.centreM2,
    permanentSurfaceMPa: -frozen * body.surfaceM2,
    passingMPa: Math.max(0, running * body.surfaceM2 - frozen * body.surfaceM2),
    coreSurfaceK: (perSecond(freezingRate) / freezingDiffusivity(glass)) * body.coreSurfaceM2,
  };
}

/** Eα/(1−ν), MPa per K. */
export function stiffness(glass: Glass): number {
  return (glass.youngGPa * 1000 * glass.expansionSolidPerK) / (1 - glass.poisson);
}

/**
 * The rate that leaves no more than the permanent limit in the core; slower still when run-down at that
 * very rate would break the passing limit (only glasses without structural shrinkage come to that).
 */
function freezingRateKPerH(glass: Glass, body: CoolingBody, limits: StressLimits): number {
  const f = structuralFactor(glass);
  const kappa = freezingDiffusivity(glass);
  const byPermanent = (limits.permanentMPa * kappa) / (f * stiffness(glass) * body.centreM2);
  const carried = (f * coldDiffusivity(glass)) / kappa;
  const bare = (limits.passingMPa * coldDiffusivity(glass)) / (stiffness(glass) * body.surfaceM2);
  const byPassing = carried < 1 ? bare / (1 - carried) : Infinity;
  return perHour(Math.min(byPermanent, byPassing));
}

/** Passing limit plus the compression already frozen into the surface, over S·u/κ. */
function rundownRateKPerH(glass: Glass, body: CoolingBody, limits: StressLimits, freezingRate: number): number {
  const frozen = -slowCoolStress(glass, body, freezingRate, 0).permanentSurfaceMPa;
  return perHour(((limits.passingMPa + frozen) * coldDiffusivity(glass)) / (stiffness(glass) * body.surfaceM2));
}

/**
 * The slower a glass cools, the lower it freezes: one decade of viscosity for one decade of rate,
 * counted from the strain point and its own rate, and a margin. Rates above that one keep the strain
 * point itself: the slow side.
 */
function endOfFreezing(glass: Glass, rateKPerH: number): number {
  const strainC = temperatureAt(glass.viscosity, LOG_STRAIN);
  const decades = Math.max(0, Math.log10(STRAIN_POINT_RATE_K_PER_H / rateKPerH));
  return strainC - kelvinPerDecade(glass.viscosity, strainC) * decades - FREEZING_MARGIN_K;
}

function freezingDiffusivity(glass: Glass): number {
  return diffusivity(glass, temperatureAt(glass.viscosity, LOG_STRAIN), "freezing");
}

/** The least diffusivity below the transition: a steady rate has to hold the limit all the way down. */
function coldDiffusivity(glass: Glass): number {
  const strainC = temperatureAt(glass.viscosity, LOG_STRAIN);
  return Math.min(diffusivity(glass, strainC, "solid"), diffusivity(glass, ROOM_C, "solid"));
}
