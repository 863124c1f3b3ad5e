import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { arrivalHours, DROP_RATE, fastestBehind, leastSoakHours } from "@/lib/domain/firing/cooling";
import type { Glass } from "@/lib/domain/glass/glass";
import { temperatureAt } from "@/lib/domain/glass/viscosity";
import type { CoolingBody } from "@/lib/domain/shape/cooling-body";
import type { CoolingTask } from "@/lib/domain/stress/cooling-task";
import { shortestCooling, type ShortestCooling } from "@/lib/domain/stress/shortest-cooling";
import { stressLimits } from "@/lib/domain/stress/stress-level";

/** As log10 of Pa·s: from here down the glass is followed; warmer, any stress is gone in a breath. */
const LOG_FLUID = 9;
/** About what the soak's temperature will be, for the hours of arriving; 10^13 Pa·s. */
const LOG_SOAK = 13;
/** The same casting is planned for many kilns and at every keystroke: the answers of the last tasks are kept. */
const KEPT = 64;
const kept = new Map<string, ShortestCooling>();

/** The shortest cooling of a body at a level, behind a mould that lets it follow so many hours late (0: bare). The kiln plays no part in it. */
export function coolingFor(glass: Glass, body: CoolingBody, level: CastingInput["stress"], processC: number, lagHours: number): ShortestCooling {
  const arrival = arrivalHours(lagHours, processC - temperatureAt(glass.viscosity, LOG_SOAK));
  const fastestKPerH = fastestBehind(lagHours);
  return remembered({
    glass, body, limits: stressLimits(level),
    fromC: Math.min(processC, temperatureAt(glass.viscosity, LOG_FLUID)),
    dropKPerH: Math.min(DROP_RATE, fastestKPerH),
    fastestKPerH,
    leastSoakHours: leastSoakHours(level, body, arrival),
  });
}

function remembered(task: CoolingTask): ShortestCooling {
  const key = JSON.stringify(task);
  const known = kept.get(key) ?? shortestCooling(task);
  kept.delete(key);
  kept.set(key, known);
  const oldest = kept.keys().next();
  if (kept.size > KEPT && oldest.done !== true) kept.delete(oldest.value);
  return known;
}
