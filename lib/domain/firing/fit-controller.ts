import type { Programmed } from "@/lib/domain/firing/cooling";

/**
 * A program with no more lines than a controller holds, where that can be had by running two
 * neighbouring ramps of one stage as one, at the slower of their rates: the pair that costs the fewest
 * hours first. Holds and stages are never joined, and a ramp that has to be stepped counts as one line
 * here, as joining others would not make room for its steps. `segmentsOf` tells what is needed in all.
 */
export function fitController(stages: readonly Programmed[], available: number | undefined): readonly Programmed[] {
  let fitted = stages;
  while (available !== undefined && linesOf(fitted) > available) {
    const joined = cheapestJoin(fitted, available);
    if (joined === undefined) return fitted;
    fitted = joined;
  }
  return fitted;
}

function linesOf(stages: readonly Programmed[]): number {
  return stages.filter(({ segments }) => segments > 0).length;
}

/** Segments a controller needs: two for every step of a ramp too slow for it. */
export function segmentsOf(stages: readonly Programmed[]): number {
  return stages.reduce((sum, { segments }) => sum + segments, 0);
}

function cheapestJoin(stages: readonly Programmed[], available: number): readonly Programmed[] | undefined {
  let best: { at: number; ramp: Programmed; extraHours: number } | undefined;
  for (let at = 0; at + 1 < stages.length; at += 1) {
    const [first, second] = [stages[at], stages[at + 1]];
    if (first === undefined || second === undefined || !joinable(first, second)) continue;
    const ramp = join(first, second, available);
    const extraHours = ramp.hours - first.hours - second.hours;
    if (best === undefined || extraHours < best.extraHours) best = { at, ramp, extraHours };
  }
  return best && [...stages.slice(0, best.at), best.ramp, ...stages.slice(best.at + 2)];
}

function joinable(first: Programmed, second: Programmed): boolean {
  return first.stage === second.stage && first.rateKPerH * second.rateKPerH > 0 && first.segments === 1 && second.segments === 1;
}

function join(first: Programmed, second: Programmed, available: number): Programmed {
  const slower = Math.abs(first.rateKPerH) <= Math.abs(second.rateKPerH) ? first : second;
  const spanK = first.rateKPerH * first.hours + second.rateKPerH * second.hours;
  return {
    stage: first.stage,
    toC: second.toC,
    rateKPerH: slower.rateKPerH,
    hours: spanK / slower.rateKPerH,
    why: `Two ramps run as one at the slower rate, as the controller holds ${available} segments: ${slower.why}`,
    segments: 1,
  };
}
