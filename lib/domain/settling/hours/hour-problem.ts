/** One ask in whole hours. `hours` is by kiln, in the order of the kilns; 0 where it does not fit. */
export type HourAsk = {
  readonly id: string;
  readonly releaseH: number;
  readonly dueH: number;
  readonly weight: number;
  readonly hours: readonly number[];
};

/** A stretch in which a kiln is taken, half-open. */
export type Taken = { readonly fromH: number; readonly toH: number };

/** Asks that compete for kilns in whole hours. `taken` is by kiln, sorted and disjoint. */
export type HourProblem = {
  readonly kilns: readonly string[];
  readonly asks: readonly HourAsk[];
  readonly taken: readonly (readonly Taken[])[];
};

export type HourPlacement = { readonly ask: number; readonly kiln: number; readonly fromH: number; readonly toH: number };

/** Σ weight × hours late, the figure every settlement in hours is judged by. */
export function hourCost(problem: HourProblem, placements: readonly HourPlacement[]): number {
  return placements.reduce((sum, { ask, toH }) => {
    const { weight, dueH } = problem.asks[ask]!;
    return sum + weight * Math.max(0, toH - dueH);
  }, 0);
}
