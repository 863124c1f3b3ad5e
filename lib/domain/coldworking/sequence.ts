import { GRITS, type Grit, type GritScale } from "./grits";

/** The next grit is no finer than this part of the last (common practice, no source). */
export const FINEST_NEXT = 1 / 2.5;
/** A step takes off this many median sizes of the grit before: the depth that grit has damaged (common practice, no source). */
export const DAMAGE_SIZES = 3;
/** Pre-polish follows a grit of 17.5 µm or finer: F400, P1200 (published sequences end there, at 400 or 600 of the US scale, 23 and 16 µm). */
export const PREPOLISH_FROM_UM = 17.5;
/** How a casting comes out of its mould. */
export type CastSurface = "smooth" | "usual" | "rough";

/**
 * What comes off a face before anything else, mm: only the skin of a good face coat; skin, flash, feeder
 * stub and unevenness of a usual plaster mould; cracks, fins and flattening (common practice, no source).
 */
export const AS_CAST_MM: Readonly<Record<CastSurface, number>> = { smooth: 0.3, usual: 1, rough: 3 };

export type GritStep = { readonly grit: Grit; readonly removeUm: number };

/**
 * Grits from the mould's surface down to where pre-polish begins. The first takes off the cast surface,
 * every further one the damage of the one before; each is as fine as the rule allows, since needless steps cost
 * hours. The start is the grit with which the fewest grains' depths have to be ground in all, the
 * finer of equals: coarser than needed adds work (published practice).
 *
 * @example gritSteps("F").map(({ grit }) => gritName(grit)) // F80, F150, F280, F400
 */
export function gritSteps(scale: GritScale, surface: CastSurface = "usual"): readonly GritStep[] {
  let best: readonly GritStep[] | undefined;
  for (const start of GRITS[scale]) {
    const steps = stepsFrom(start, AS_CAST_MM[surface]);
    if (best === undefined || grainsOf(steps) <= grainsOf(best)) best = steps;
    if (start.medianUm <= PREPOLISH_FROM_UM) break;
  }
  return best ?? [];
}

/** How many of its own median sizes a step grinds away: with an even rate of grains, its share of the time. */
export function grains({ grit, removeUm }: GritStep): number {
  return removeUm / grit.medianUm;
}

function grainsOf(steps: readonly GritStep[]): number {
  return steps.reduce((sum, step) => sum + grains(step), 0);
}

function stepsFrom(start: Grit, asCastMm: number): readonly GritStep[] {
  const steps: GritStep[] = [{ grit: start, removeUm: asCastMm * 1000 }];
  let last = start;
  while (last.medianUm > PREPOLISH_FROM_UM) {
    const next = nextAfter(last);
    steps.push({ grit: next, removeUm: DAMAGE_SIZES * last.medianUm });
    last = next;
  }
  return steps;
}

/** The finest that the rule allows, and no finer than pre-polish asks for. */
function nextAfter(last: Grit): Grit {
  const allowed = GRITS[last.scale].filter(({ medianUm }) => medianUm < last.medianUm && medianUm >= FINEST_NEXT * last.medianUm);
  const enough = allowed.find(({ medianUm }) => medianUm <= PREPOLISH_FROM_UM);
  const next = enough ?? allowed.at(-1);
  if (next === undefined) throw new Error(`no grit follows ${last.scale}${last.number}`);
  return next;
}
