import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { LONG_FLOW_HOURS } from "@/lib/domain/firing/flow";
import type { LoadMasses } from "@/lib/domain/firing/load-masses";
import { processWarnings } from "@/lib/domain/firing/process-temperature";

/** Beyond this one pot gets unwieldy, litres (common practice). */
const LARGE_POT_L = 25;
/** The published tables end at 200 mm; thicker is the same law beyond what it was compared with. */
const TABLE_END_MM = 200;

/** What a person must know of this plan beyond its numbers. */
export function planWarnings(input: CastingInput, load: LoadMasses, processC: number, runningHours: number, segments: number): string[] {
  const warnings = [...processWarnings(input, processC)];
  const available = input.kiln?.controllerSegments;
  if (available !== undefined && segments > available) {
    warnings.push(`The program needs ${segments} segments; this controller holds ${available}. Run it as ${Math.ceil(segments / available)} programs, one after another, or step by hand.`);
  }
  if (load.pot.litres > LARGE_POT_L) warnings.push(`A pot of ${load.pot.litres.toFixed(0)} litres is unwieldy; several pots, or charging twice, may be better.`);
  if (runningHours > LONG_FLOW_HOURS) {
    warnings.push(`The glass needs ${runningHours.toFixed(0)} h to run; a wider feeder shortens that. Lime glasses may devitrify between 700 and 900 °C in such a time.`);
  }
  const thickest = input.piece.thickestMm ?? Math.min(...(input.piece.sizeMm ?? [0]));
  if (thickest > TABLE_END_MM) warnings.push(`${thickest} mm is thicker than any published schedule (${TABLE_END_MM} mm); the law is carried on beyond what it was compared with.`);
  warnings.push("Not covered: seeds and inclusions, pieces of another glass attached, the mould holding the glass while it shrinks, and uneven heat in the kiln.");
  return warnings;
}
