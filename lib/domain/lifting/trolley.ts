import type { TrolleyLimits } from "@/lib/domain/booking/equipment";
import { ok, refuse, refusalOf, type Outcome, type Problem } from "@/lib/domain/refusal";
import type { Flag } from "./hands";

/**
 * Whether a trolley may carry a mould and how hard it is to push. Gross mass is always trolley plus
 * load. Forces N, masses kg, slopes as rise over run (1 in 12 is 1/12).
 */
export type Route = {
  /** Good wheels on an even floor, worn wheels, or an uneven floor. */
  readonly rolling: "good" | "worn" | "uneven";
  /** The steepest part, rise over run; 0 on the level. Up to 1 in 8. */
  readonly slope: number;
  /** A door sill or edge to get over. */
  readonly threshold: boolean;
  /** The load's centre stands off the deck's centre by more than a sixth of its length (scissor tables). */
  readonly offCentre?: boolean;
};

export type TrolleyCheck = {
  readonly grossKg: number;
  /** What the plate's figure comes down to on this route. */
  readonly allowedGrossKg: number;
  readonly startN: number;
  readonly keepMovingN: number;
  /** "amber" above the cautious push figure, "red" above the other. Never "safe". */
  readonly flag: Flag;
};

const G = 9.81;

/**
 * HSE guideline figures for pushing and pulling with the hands between knuckle and shoulder over at
 * most about 20 m: to start or stop 150 N (women) and 200 N (men), to keep moving 70 N and 100 N.
 */
export const PUSH_FIGURES_N = { start: { cautious: 150, upper: 200 }, keepMoving: { cautious: 70, upper: 100 } } as const;

/**
 * Force to roll, as a share of the weight: at least 2 % for good equipment on the level, up to 10 %
 * where the floor is uneven (HSE); 4 % for worn wheels is common practice, no source.
 */
const ROLLING_SHARE = { good: 0.02, worn: 0.04, uneven: 0.1 } as const;

/** To get going takes about twice the rolling force, more with castors turned aside. Common practice, no source. */
const STARTING_FACTOR = 2;

/** Push forces for a gross mass on a route, N. Slope 0 to 1/8. */
export function pushForces(grossKg: number, route: Pick<Route, "rolling" | "slope">): Outcome<{ startN: number; keepMovingN: number }> {
  const problems: Problem[] = [];
  if (!(grossKg > 0 && grossKg < Infinity)) problems.push(outside("grossKg", grossKg, "more than 0 kg"));
  if (!(route.slope >= 0 && route.slope <= 1 / 8)) problems.push(outside("slope", route.slope, "0 to 0.125 (1 in 8)"));
  const refusal = refusalOf(problems);
  if (refusal !== undefined) return refusal;
  const weightN = grossKg * G;
  const uphillN = weightN * Math.sin(Math.atan(route.slope));
  const rollingN = weightN * ROLLING_SHARE[route.rolling];
  return ok({ startN: STARTING_FACTOR * rollingN + uphillN, keepMovingN: rollingN + uphillN });
}

/**
 * The share of the plate's figure to plan with: all of it on a level, even floor, 0.8 on an uneven
 * one, 0.5 over a threshold or a slope of more than 2 %, and 0.75 of that for an off-centre load.
 * Common practice, no source.
 */
export function derating(route: Route): number {
  const floor = route.threshold || route.slope > 0.02 ? 0.5 : route.rolling === "uneven" ? 0.8 : 1;
  return floor * (route.offCentre === true ? 0.75 : 1);
}

/**
 * What each castor must carry, kg: one of them may hang in the air over an uneven spot, so the others
 * share the gross mass: gross / (n − 1). Rule of castor makers, 3 to 8 castors.
 * @example castorLoadKg(300, 4) // { ok: true, value: 100 }
 */
export function castorLoadKg(grossKg: number, castors: number): Outcome<number> {
  if (!(grossKg > 0 && grossKg < Infinity)) return refuse(outside("grossKg", grossKg, "more than 0 kg"));
  if (!(Number.isInteger(castors) && castors >= 3 && castors <= 8)) return refuse(outside("castors", castors, "3 to 8"));
  return ok(grossKg / (castors - 1));
}

/** Whether this trolley may take this load along this route; a gross mass above the derated plate figure is refused. */
export function checkTrolley(limits: TrolleyLimits, loadKg: number, route: Route): Outcome<TrolleyCheck> {
  if (!(loadKg > 0 && loadKg < Infinity)) return refuse(outside("loadKg", loadKg, "more than 0 kg"));
  const grossKg = limits.ownKg + loadKg;
  const allowedGrossKg = limits.ratedKg * derating(route);
  if (!(grossKg <= allowedGrossKg)) {
    return refuse({
      code: "trolley-overloaded",
      message: `${round(loadKg)} kg on a trolley of ${round(limits.ownKg)} kg is ${round(grossKg)} kg; on this route it may weigh ${round(allowedGrossKg)} kg in all.`,
      field: "loadKg",
      value: loadKg,
      allowed: `up to ${round(Math.max(0, allowedGrossKg - limits.ownKg))} kg`,
    });
  }
  const forces = pushForces(grossKg, route);
  if (!forces.ok) return forces;
  return ok({ grossKg, allowedGrossKg, ...forces.value, flag: pushFlag(forces.value) });
}

/** "amber" or "red" when either force is above its HSE figure. */
export function pushFlag({ startN, keepMovingN }: { readonly startN: number; readonly keepMovingN: number }): Flag {
  const { start, keepMoving } = PUSH_FIGURES_N;
  if (!(startN <= start.upper && keepMovingN <= keepMoving.upper)) return "red";
  return startN <= start.cautious && keepMovingN <= keepMoving.cautious ? "none" : "amber";
}

function round(kg: number): string {
  return String(Math.round(kg * 10) / 10);
}

function outside(field: string, value: number, allowed: string): Problem {
  return { code: "out-of-range", message: `${field} is ${value}; allowed is ${allowed}.`, field, value, allowed };
}
