import type { DayProblem } from "@/lib/domain/settling/days/day-problem";

/** Costs are written with at most this many parts of one. */
const PARTS = 1000;

/**
 * The largest step of which every cost of the problem is a whole multiple; 0 when there is none down
 * to a thousandth. Days are whole, so a cost is a sum of whole multiples of the weights and prices.
 */
export function costStep({ jobs }: DayProblem): number {
  const prices = jobs.flatMap(({ weight, standing, quiet }) => [quiet?.price ?? 0, ...(standing === null ? [weight] : [weight, standing.moved ?? 0, standing.fix, standing.slope, standing.otherClass])]);
  let divisor = 0;
  for (const price of prices) {
    const parts = Math.round(price * PARTS);
    if (Math.abs(parts - price * PARTS) > 1e-6) return 0;
    divisor = greatestCommon(divisor, parts);
  }
  return divisor / PARTS;
}

/** Up to the next possible cost, after taking off more than rounding in the sums can have added. */
export function roundedDayBound(bound: number, step: number): number {
  const careful = bound - 1e-6 * (1 + 1e-3 * Math.abs(bound));
  if (!(careful > 0)) return 0;
  if (step === 0) return careful;
  // The last digits of a multiple must not stand above the same cost worked out elsewhere.
  return Math.max(careful, Math.ceil(careful / step) * step - 1e-9);
}

function greatestCommon(a: number, b: number): number {
  return b === 0 ? a : greatestCommon(b, a % b);
}
