import type { Feeder } from "@/lib/domain/firing/casting-input";
import type { Glass } from "@/lib/domain/glass/glass";
import { log10Viscosity } from "@/lib/domain/glass/viscosity";
import { metres, SECONDS_PER_HOUR, STANDARD_GRAVITY } from "@/lib/domain/units";

/** Until mould and charge are level with the kiln, and for bubbles to rise. Published holds are 1.5–8 h in all. */
const LEVEL_HOURS = 2;
const LEAST_HOURS = 3;

/** What the glass flows through and how high it stands above. */
export type FlowPath = { readonly feeder: Feeder | undefined; readonly headM: number; readonly volumeM3: number };

/**
 * Hours for the charge to run through the feeder: viscous flow in a round pipe under its own weight
 * (Hagen–Poiseuille), Q = π·D⁴·ρ·g·(h + L)/(128·η·L). Valid for Reynolds numbers far below 1, as glass
 * always is. Without a feeder (an open mould) nothing holds it back: 0.
 */
export function runHours(glass: Glass, processC: number, { feeder, headM, volumeM3 }: FlowPath): number {
  if (feeder === undefined) return 0;
  const diameter = metres(feeder.diameterMm);
  const length = metres(feeder.lengthMm);
  const viscosity = 10 ** log10Viscosity(glass.viscosity, processC);
  const flow = (Math.PI * diameter ** 4 * glass.densityKgM3 * STANDARD_GRAVITY * (headM + length)) / (128 * viscosity * length);
  return volumeM3 / flow / SECONDS_PER_HOUR;
}

export function flowHours(runningHours: number, lagHours: number): number {
  return Math.max(LEAST_HOURS, LEVEL_HOURS + lagHours + runningHours);
}

/** Beyond this a wider feeder is the answer, not a longer hold: plaster weakens and lime glasses devitrify (common practice). */
export const LONG_FLOW_HOURS = 12;
/** Beyond this nobody would fire it. */
export const MOST_FLOW_HOURS = 96;
