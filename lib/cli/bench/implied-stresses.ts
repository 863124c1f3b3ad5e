import { catalogueGlass } from "@/lib/domain/glass/catalogue";
import { simulate } from "@/lib/domain/stress/simulate";
import type { StressLimits } from "@/lib/domain/stress/stress-level";
import type { SlabProgram } from "./thick-slab-tables";

/** From so much above the soak, where either glass flows, down to it as fast as plaster allows. */
const ABOVE_SOAK_K = 138;
const DROP_K_PER_H = 150;

/** What a published program leaves in its slab, and the largest tension from the end of its soak on, MPa. */
export function impliedStresses({ glass, thicknessMm, soakC, soakHours, ramps }: SlabProgram): StressLimits {
  const startC = soakC + ABOVE_SOAK_K;
  const soakFrom = ABOVE_SOAK_K / DROP_K_PER_H;
  const program: [number, number][] = [[0, startC], [soakFrom, soakC], [soakFrom + soakHours, soakC]];
  let [hours, fromC] = [soakFrom + soakHours, soakC];
  for (const [toC, rate] of ramps) {
    hours += (fromC - toC) / rate;
    fromC = toC;
    program.push([hours, toC]);
  }
  const { permanent, history } = simulate({ glass: catalogueGlass(glass), shape: "slab", thicknessM: thicknessMm / 1000, mouldWallM: 0, surface: "fixed", startC, program });
  const cooling = history.filter(({ h }) => h >= soakFrom + soakHours);
  return { permanentMPa: permanent.centreMPa, passingMPa: Math.max(...cooling.map(({ surfaceMPa, centreMPa }) => Math.max(surfaceMPa, centreMPa))) };
}
