import type { HourProblem } from "@/lib/domain/settling/hours/hour-problem";

/**
 * One kiln that nothing else takes, and asks that are all ready at the same hour: then only the order
 * counts and no gap is ever worth leaving. Times are hours after `startH`.
 */
export type OneKiln = {
  readonly count: number;
  readonly startH: number;
  readonly hours: Float64Array;
  readonly due: Float64Array;
  readonly weight: Float64Array;
};

/** The problem as one kiln without gaps, or nothing when it is not that. */
export function asOneKiln({ kilns, asks, taken }: HourProblem): OneKiln | undefined {
  const startH = asks[0]?.releaseH;
  if (startH === undefined || kilns.length !== 1 || (taken[0] ?? []).length > 0) return undefined;
  if (asks.some((ask) => ask.releaseH !== startH)) return undefined;
  return {
    count: asks.length,
    startH,
    hours: Float64Array.from(asks, (ask) => ask.hours[0]!),
    due: Float64Array.from(asks, (ask) => ask.dueH - startH),
    weight: Float64Array.from(asks, (ask) => ask.weight),
  };
}

export function orderCost({ count, hours, due, weight }: OneKiln, order: Int32Array): number {
  let end = 0;
  let cost = 0;
  for (let i = 0; i < count; i++) {
    const ask = order[i]!;
    end += hours[ask]!;
    if (end > due[ask]!) cost += weight[ask]! * (end - due[ask]!);
  }
  return cost;
}
