import type { Budget } from "@/lib/domain/settling/effort";
import { latestUsefulStart, candidateStarts } from "@/lib/domain/settling/hours/candidate-starts";
import type { HourProblem } from "@/lib/domain/settling/hours/hour-problem";
import { likeKilns, type LikeKilns } from "@/lib/domain/settling/hours/like-kilns";
import { climb, climbSteps, type Lagrangian } from "@/lib/domain/settling/subgradient";

/** Starts looked at in one evaluation, at most; time is priced in coarser steps rather than more. */
const MOST_STARTS = 1_200_000;

type Choice = { readonly ask: number; readonly like: number; readonly hours: number; readonly starts: Int32Array };

/**
 * A proven lower bound of the cost, from Lagrangian prices on kiln time: every ask alone pays for the
 * hours it takes and picks its cheapest kiln and start; what all pay, less what the prices allow for
 * the time there is, is below every plan. Prices are constant over steps of `stepH` hours.
 *
 * Rounded up to a whole number only where all weights are whole, for then every cost is. A small
 * allowance is taken off first, so that rounding in the sums cannot lift it above the optimum.
 */
export function boundHours(problem: HourProblem, target: () => number, budget: Budget, share: number, onBetter: (bound: number) => void): number {
  const whole = problem.asks.every(({ weight }) => Number.isInteger(weight));
  let bound = 0;
  const tell = (value: number): void => {
    const rounded = roundedBound(value, whole);
    if (rounded <= bound) return;
    bound = rounded;
    onBetter(bound);
  };
  onBetter(0);
  const lagrangian = hourLagrangian(problem);
  climb(lagrangian, new Float64Array(lagrangian.size), target, budget.steps(climbSteps(lagrangian), share), tell);
  return bound;
}

/** A bound that rounding errors of the sums cannot have lifted, up to the next possible cost. */
export function roundedBound(value: number, whole: boolean): number {
  const careful = value - 1e-6 * (1 + Math.abs(value) * 1e-3);
  return Math.max(0, whole ? Math.ceil(careful) : careful);
}

export function hourLagrangian(problem: HourProblem): Lagrangian {
  const likes = likeKilns(problem);
  const horizonH = latestUsefulStart(problem);
  const perHour = problem.asks.reduce((sum, ask) => sum + likes.filter((like) => ask.hours[like.kilns[0]!]! > 0).length, 0);
  const stepH = Math.max(1, Math.ceil((perHour * horizonH) / MOST_STARTS));
  const steps = Math.ceil(horizonH / stepH) + 1;
  const room = roomOf(likes, problem, steps, stepH);
  const choices = problem.asks.map((_, ask) => choicesOf(problem, likes, ask, steps, stepH));
  const sums = likes.map(() => new Float64Array(steps + 1));
  return {
    size: likes.length * steps,
    work: choices.flat().reduce((sum, { starts }) => sum + starts.length, 0),
    evaluate: (prices, slope) => {
      let value = 0;
      likes.forEach((_, like) => {
        const sum = sums[like]!;
        for (let b = 0; b < steps; b++) {
          const price = prices[like * steps + b]!;
          sum[b + 1] = sum[b]! + price * stepH;
          value -= price * room[like * steps + b]!;
        }
      });
      for (let i = 0; i < slope.length; i++) slope[i] = -room[i]!;
      for (const own of choices) value += cheapest(problem, own, prices, sums, steps, stepH, slope);
      return value;
    },
  };
}

/** The cheapest way of one ask at these prices; adds the hours it takes to `slope`. */
function cheapest(problem: HourProblem, own: readonly Choice[], prices: Float64Array, sums: readonly Float64Array[], steps: number, stepH: number, slope: Float64Array): number {
  let least = Infinity;
  let best: Choice | undefined;
  let bestStart = 0;
  for (const choice of own) {
    const { dueH, weight } = problem.asks[choice.ask]!;
    const { starts, hours, like } = choice;
    const sum = sums[like]!;
    const base = like * steps;
    for (let i = 0; i < starts.length; i++) {
      const start = starts[i]!;
      const end = start + hours;
      const late = end > dueH ? weight * (end - dueH) : 0;
      if (late >= least) break;
      const price = stepH === 1 ? sum[end < steps ? end : steps]! - sum[start < steps ? start : steps]! : paidUpTo(sum, prices, base, steps, stepH, end) - paidUpTo(sum, prices, base, steps, stepH, start);
      if (late + price < least) {
        least = late + price;
        best = choice;
        bestStart = start;
      }
    }
  }
  if (best === undefined) return 0;
  addUse(slope, best.like * steps, steps, stepH, bestStart, bestStart + best.hours);
  return least;
}

/** Price of all hours before `hour`; hours after the last step are free. */
function paidUpTo(sum: Float64Array, prices: Float64Array, base: number, steps: number, stepH: number, hour: number): number {
  const step = Math.floor(hour / stepH);
  return step >= steps ? sum[steps]! : sum[step]! + prices[base + step]! * (hour - step * stepH);
}

function addUse(slope: Float64Array, base: number, steps: number, stepH: number, from: number, to: number): void {
  for (let step = Math.floor(from / stepH); step < steps && step * stepH < to; step++) {
    slope[base + step]! += Math.min(to, (step + 1) * stepH) - Math.max(from, step * stepH);
  }
}

function roomOf(likes: readonly LikeKilns[], problem: HourProblem, steps: number, stepH: number): Float64Array {
  const room = new Float64Array(likes.length * steps);
  likes.forEach(({ kilns }, like) => {
    const taken = new Float64Array(steps);
    for (const { fromH, toH } of problem.taken[kilns[0]!]!) addUse(taken, 0, steps, stepH, fromH, toH);
    for (let step = 0; step < steps; step++) room[like * steps + step] = kilns.length * (stepH - taken[step]!);
  });
  return room;
}

function choicesOf(problem: HourProblem, likes: readonly LikeKilns[], ask: number, steps: number, stepH: number): Choice[] {
  return likes.flatMap(({ kilns }, like) => {
    const kiln = kilns[0]!;
    const hours = problem.asks[ask]!.hours[kiln]!;
    return hours > 0 ? [{ ask, like, hours, starts: candidateStarts(problem, ask, kiln, steps, stepH) }] : [];
  });
}
