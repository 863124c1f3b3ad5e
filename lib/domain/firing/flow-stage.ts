import type { Stage } from "@/lib/domain/firing/casting-plan";
import { hoursInWords, inDigits } from "@/lib/domain/firing/figures";
import { hold } from "@/lib/domain/firing/segment";
import type { Glass } from "@/lib/domain/glass/glass";
import { log10Viscosity } from "@/lib/domain/glass/viscosity";

/** The hold at process temperature. */
export function flowStage(glass: Glass, processC: number, hours: number, running: number): Stage {
  const log = log10Viscosity(glass.viscosity, processC);
  const through = running > 0 ? `needs ${hoursInWords(running)} to run through the feeder under its own weight` : "runs freely, as no feeder holds it back";
  return hold("Flow", processC, hours, `At ${processC} °C ${glass.name} (10^${inDigits(log)} Pa·s) ${through}; ${inDigits(hours)} h in all let it settle.`);
}
