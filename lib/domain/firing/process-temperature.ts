import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { Glass } from "@/lib/domain/glass/glass";
import { LOG_SOFTENING, temperatureAt } from "@/lib/domain/glass/viscosity";
import type { Problem } from "@/lib/domain/refusal";

/** Plaster is brittle and gives off sulphur oxides near 900 °C: warned above, refused above (a maker's technical note gives 880–900). */
export const MOULD_WARN_C = 850;
export const MOULD_REFUSE_C = 880;

/** Casting glass runs willingly at 10^4 Pa·s, a decade above the working point (common practice). */
const LOG_RUNNING = 4;
/** Bare glass is not poured: at 10^5 Pa·s it joins and rounds off (common practice). */
const LOG_JOINING = 5;
/** Stiffer than 10^5.5 Pa·s glass sinks and joins, but does not run into a mould (common practice). */
export const LOG_FILLING = 5.5;

/**
 * The hottest temperature of the program, °C: what was asked for, or where the glass runs (in a mould,
 * and then not above 850 °C unless somebody asks for it) or joins (bare).
 */
export function processTemperature(input: CastingInput, glass: Glass): number {
  if (input.processC !== undefined) return input.processC;
  const wished = input.mould === undefined ? LOG_JOINING : LOG_RUNNING;
  const running = Math.round(temperatureAt(glass.viscosity, wished) / 5) * 5;
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
  const soft = Math.ceil(temperatureAt(glass.viscosity, mould === undefined ? LOG_SOFTENING : LOG_FILLING));
  if (processC < soft) {
    const why = mould === undefined ? "does not soften below" : "does not run into a mould below";
    const mouldEnds = mould !== undefined && soft > MOULD_REFUSE_C ? `, and a plaster–silica mould ends at ${MOULD_REFUSE_C} °C` : "";
    problems.push({
      code: "too-cold-to-run", field, value: processC, allowed: `from ${soft} °C`,
      message: `The program goes to ${processC} °C; ${glass.name} ${why} ${soft} °C${mouldEnds}.`,
    });
  }
  return problems;
}

export function processWarnings(input: CastingInput, processC: number): string[] {
  if (input.mould === undefined || processC <= MOULD_WARN_C) return [];
  return [`${processC} °C is above ${MOULD_WARN_C} °C: plaster grows brittle and gives off sulphur oxides. Ventilate, and keep it short.`];
}
