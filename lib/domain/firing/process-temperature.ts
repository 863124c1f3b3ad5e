import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { Glass } from "@/lib/domain/glass/glass";
import { temperatureAt } from "@/lib/domain/glass/viscosity";
import type { Problem } from "@/lib/domain/refusal";

/** Plaster is brittle and gives off sulphur oxides near 900 °C: warned above, refused above (a maker's technical note gives 880–900). */
export const MOULD_WARN_C = 850;
export const MOULD_REFUSE_C = 880;

/** Casting glass runs willingly at 10^4 Pa·s, the working point. */
const LOG_RUNNING = 4;

/**
 * The hottest temperature of the program, °C: what was asked for, or the working point of the glass,
 * which in a plaster mould is not taken above 850 °C unless somebody asks for it.
 */
export function processTemperature(input: CastingInput, glass: Glass): number {
  if (input.processC !== undefined) return input.processC;
  const running = Math.round(temperatureAt(glass.viscosity, LOG_RUNNING) / 5) * 5;
  return input.mould === undefined ? running : Math.min(running, MOULD_WARN_C);
}

/** Refusals of a temperature that the mould or the kiln cannot stand, or at which the glass is not soft. */
export function processProblems(input: CastingInput, glass: Glass, processC: number): Problem[] {
  const problems: Problem[] = [];
  const { mould, kiln } = input;
  const field = "processC";
  if (mould !== undefined && processC > MOULD_REFUSE_C) {
    problems.push({
      code: "too-hot-for-mould", field, value: processC, allowed: `up to ${MOULD_REFUSE_C} °C`,
      message: `processC is ${processC} °C; a plaster–silica mould may be fired to ${MOULD_REFUSE_C} °C at most.`,
    });
  }
  if (kiln !== undefined && processC > kiln.maxC) {
    problems.push({
      code: "too-hot-for-kiln", field, value: processC, allowed: `up to ${kiln.maxC} °C`,
      message: `The program needs ${processC} °C; this kiln reaches ${kiln.maxC} °C at most.`,
    });
  }
  const soft = temperatureAt(glass.viscosity, 6.6);
  if (processC < soft) {
    problems.push({
      code: "too-cold-to-run", field, value: processC, allowed: `from ${Math.ceil(soft)} °C`,
      message: `processC is ${processC} °C; ${glass.name} only softens at ${Math.ceil(soft)} °C and would not run.`,
    });
  }
  return problems;
}

export function processWarnings(input: CastingInput, processC: number): string[] {
  if (input.mould === undefined || processC <= MOULD_WARN_C) return [];
  return [`${processC} °C is above ${MOULD_WARN_C} °C: plaster grows brittle and gives off sulphur oxides. Ventilate, and keep it short.`];
}
