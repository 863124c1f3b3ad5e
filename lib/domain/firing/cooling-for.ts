import { setBehind, type Behind } from "@/lib/domain/firing/behind-mould";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { arrivalHours, DROP_RATE, fastestBehind, leastSoakHours } from "@/lib/domain/firing/cooling";
import type { Glass } from "@/lib/domain/glass/glass";
import { temperatureAt } from "@/lib/domain/glass/viscosity";
import { keepLast } from "@/lib/domain/numeric/keep-last";
import type { CoolingBody } from "@/lib/domain/shape/cooling-body";
import type { Solid } from "@/lib/domain/shape/solid";
import type { CoolingTask } from "@/lib/domain/stress/cooling-task";
import { shortestCooling, type ShortestCooling } from "@/lib/domain/stress/shortest-cooling";
import { stressLimits } from "@/lib/domain/stress/stress-level";

/** About what the soak's temperature will be, for the hours of arriving; 10^13 Pa·s. */
const LOG_SOAK = 13;
/** No closed kiln cools faster, and published tables ask for no more of thin plates (common practice, no source). */
const FASTEST_K_PER_H = 600;
/** The same casting is planned for many kilns and at every keystroke: the answers of the last tasks are kept. */
const KEPT = 256;

/** The shortest cooling of a body at a level, behind a mould that lets it follow so many hours late (0: bare). The kiln plays no part in it. */
export function coolingFor(glass: Glass, body: CoolingBody, round: CoolingTask["round"], level: CastingInput["stress"], processC: number, lagHours: number): ShortestCooling {
  const arrival = arrivalHours(lagHours, processC - temperatureAt(glass.viscosity, LOG_SOAK));
  const fastestKPerH = Math.min(FASTEST_K_PER_H, fastestBehind(lagHours));
  const task: CoolingTask = {
    glass, body, round, limits: stressLimits(level),
    fromC: processC,
    dropKPerH: Math.min(DROP_RATE, fastestKPerH),
    fastestKPerH,
    leastSoakHours: leastSoakHours(level, body, arrival),
  };
  return found({ task, behind: lagHours > 0 ? { lagHours, arrivalHours: arrival } : undefined });
}

const found = keepLast(({ task, behind }: { readonly task: CoolingTask; readonly behind: Behind | undefined }): ShortestCooling => {
  const bare = shortestCooling(task);
  return behind === undefined ? bare : setBehind(task, bare, behind);
}, KEPT);

/** A cylinder so much longer than thick is as good as endless: core over surface within 2 %. */
const LONG = 3;

/** The round body that a solid is, when the model can follow it as it is. */
export function roundOf(solid: Solid, cooling: CastingInput["cooling"]): CoolingTask["round"] {
  if (cooling !== "all-round") return undefined;
  if (solid.shape === "ball") return { shape: "ball", diameterM: solid.diameterM };
  return solid.shape === "cylinder" && solid.heightM >= LONG * solid.diameterM ? { shape: "cylinder", diameterM: solid.diameterM } : undefined;
}
