import type { Glass } from "@/lib/domain/glass/glass";
import { LOG_ANNEALING, LOG_STRAIN, temperatureAt } from "@/lib/domain/glass/viscosity";
import { diffusivity } from "@/lib/domain/heat/glass-heat";
import type { CoolingBody } from "@/lib/domain/shape/cooling-body";
import { perSecond, ROOM_C } from "@/lib/domain/units";
import { heatingRateKPerH } from "./quasi-steady";
import { simulate, USUAL_FINENESS } from "./simulate";
import { standInFor, stressInBody } from "./stand-in";

export type WarmingTask = {
  readonly glass: Glass;
  readonly body: CoolingBody;
  /** Where the program goes, °C. */
  readonly toC: number;
  readonly limitMPa: number;
  /** No ramp is faster, K/h; also the rate of what is soft. */
  readonly fastestKPerH: number;
  /** How fast the piece once cooled through its transition, K/h: its structure dates from then. */
  readonly cooledKPerH: number;
};

type Ramp = { readonly toC: number; readonly rateKPerH: number };
export type Warming = { readonly cold: Ramp; readonly through: Ramp; readonly tensionMPa: number };

/** Glass of this viscosity, as log10 of Pa·s, loses its tension in seconds. */
const LOG_SOFT = 10.5;
/** Glass cooled at 10 K/min has the structure of 10^12 Pa·s (the usual definition of the transition); a tenth of the rate, ten times the viscosity. */
const TRANSITION_RATE_K_PER_H = 600;
const KEPT = 1.005;
const CAUTION = 1.01;
const MOST_CHECKS = 8;

/** The temperature, °C, whose equilibrium structure a glass keeps that was cooled at a steady rate, K/h. */
export function keptStructureC(glass: Glass, rateKPerH: number): number {
  return temperatureAt(glass.viscosity, LOG_ANNEALING + Math.log10(TRANSITION_RATE_K_PER_H / rateKPerH));
}

/**
 * The two ramps of bare glass from the room until it is soft to its core. Cold, its core is in tension because
 * the surface runs ahead; then the surface passes its transition first and swells three times as much, which
 * pulls the core harder for the same rate. Both rates are brought to the limit by the transient model, started
 * from the law of steady heating; whatever follows beyond `through` finds no glass that holds tension.
 */
export function fastestWarming(task: WarmingTask): Warming {
  const { glass, body, limitMPa, fastestKPerH } = task;
  let coldKPerH = Math.min(fastestKPerH, heatingRateKPerH(glass, body, limitMPa));
  let throughKPerH = coldKPerH;
  for (let check = 1; ; check += 1) {
    const ramps = rampsAt(task, coldKPerH, throughKPerH);
    const met = followed(task, ramps);
    const tensionMPa = Math.max(met.coldMPa, met.throughMPa);
    if (tensionMPa <= KEPT * limitMPa || check >= MOST_CHECKS) return { ...ramps, tensionMPa };
    coldKPerH /= Math.max(1, (CAUTION * met.coldMPa) / limitMPa);
    throughKPerH = Math.min(coldKPerH, throughKPerH / Math.max(1, (CAUTION * met.throughMPa) / limitMPa));
  }
}

function rampsAt({ glass, body, toC }: WarmingTask, coldKPerH: number, throughKPerH: number): Pick<Warming, "cold" | "through"> {
  const strainC = temperatureAt(glass.viscosity, LOG_STRAIN);
  const coreBehindK = (perSecond(throughKPerH) * body.coreSurfaceM2) / diffusivity(glass, strainC, "freezing");
  return {
    cold: { toC: Math.round(Math.min(toC, strainC)), rateKPerH: coldKPerH },
    through: { toC: Math.round(Math.min(toC, temperatureAt(glass.viscosity, LOG_SOFT) + coreBehindK)), rateKPerH: throughKPerH },
  };
}

function followed({ glass, body, toC, fastestKPerH, cooledKPerH }: WarmingTask, { cold, through }: Pick<Warming, "cold" | "through">): { readonly coldMPa: number; readonly throughMPa: number } {
  const as = standInFor(body);
  const coldH = (cold.toC - ROOM_C) / cold.rateKPerH;
  const throughH = coldH + (through.toC - cold.toC) / through.rateKPerH;
  const endH = throughH + (toC - through.toC) / fastestKPerH;
  const program = ([[0, ROOM_C], [coldH, cold.toC], [throughH, through.toC], [endH, toC]] as const).filter(([h], i, all) => i === 0 || h > (all[i - 1]?.[0] ?? 0));
  let [coldMPa, throughMPa] = [0, 0];
  simulate(
    { glass, shape: "slab", thicknessM: 2 * as.halfM, mouldWallM: 0, surface: "fixed", startC: ROOM_C, structureC: keptStructureC(glass, cooledKPerH), program }, USUAL_FINENESS,
    (row, profile) => {
      if (row.h > endH * (1 + 1e-9)) return;
      const { tensionMPa } = stressInBody(as, row, profile);
      if (row.h <= coldH) coldMPa = Math.max(coldMPa, tensionMPa);
      else throughMPa = Math.max(throughMPa, tensionMPa);
    },
  );
  return { coldMPa, throughMPa };
}
