import type { Effort } from "@/lib/domain/settling/effort";

/**
 * A Lagrangian: for given prices, `evaluate` gives a proven lower bound and writes into `slope` how
 * far each priced resource is used beyond what there is. Every value it gives is a bound by itself,
 * so stopping early never makes a bound wrong, only weaker.
 */
export type Lagrangian = {
  readonly size: number;
  /** Choices looked at in one evaluation, which is what it costs. */
  readonly work: number;
  readonly evaluate: (prices: Float64Array, slope: Float64Array) => number;
};

/** Choices looked at in all, where no clock ends the climb; about a second. */
const MOST_WORK = 80_000_000;
const MOST_STEPS = 3_000;
const LEAST_STEPS = 40;

/** How many steps a climb of this size takes at most where no clock ends it. */
export function climbSteps({ work }: Lagrangian): number {
  return Math.max(LEAST_STEPS, Math.min(MOST_STEPS, Math.round(MOST_WORK / Math.max(1, work))));
}

export type Climb = { readonly bound: number; readonly prices: Float64Array };

/** Share of the newest slope in the direction taken; the rest is what was gone before. */
const NEWEST = 0.06;
/** After this many steps without a better bound, steps become shorter by `SHORTER`. */
const PATIENCE = 20;
const SHORTER = 0.82;
/** Long first steps overshoot where almost nobody is late, and the bound never leaves zero. */
const FIRST_LENGTH = 0.06;
/**
 * A target far above the bound there is makes first steps overshoot and fall. Until one has risen they begin again
 * half as long after so many; where none rises that way, almost nobody is late and the full length is right.
 */
const FIRST_PATIENCE = 6;
const MOST_HALVINGS = 6;

/**
 * Raises the bound by deflected subgradient steps sized by the distance to `target()`, the cost of
 * the best plan known (B. T. Polyak's rule, from memory). Prices never fall below zero. Ends when the
 * effort is spent, steps have become too short to matter, or the bound has met the target; it always
 * evaluates the prices it starts from.
 */
export function climb({ size, evaluate }: Lagrangian, start: Float64Array, target: () => number, effort: Effort, onBetter: (bound: number) => void = () => undefined): Climb {
  const prices = Float64Array.from(start);
  const best = Float64Array.from(start);
  const slope = new Float64Array(size);
  const direction = new Float64Array(size);
  let bound = -Infinity;
  let length = FIRST_LENGTH;
  let since = 0;
  let rises = 0;
  let halvings = 0;
  for (let iteration = 0; iteration === 0 || (effort.spent(iteration) < 1 && length > 1e-4); iteration++) {
    const value = evaluate(prices, slope);
    if (value > bound) {
      since = value > bound + 1e-5 * Math.abs(value) ? 0 : since + 1;
      bound = value;
      best.set(prices);
      onBetter(bound);
      rises++;
    } else since++;
    if (rises < 2 && since >= FIRST_PATIENCE && halvings < MOST_HALVINGS) {
      halvings++;
      length = halvings === MOST_HALVINGS ? FIRST_LENGTH : length / 2;
      since = 0;
      prices.set(best);
      direction.fill(0);
      continue;
    }
    if (since >= PATIENCE) {
      length *= SHORTER;
      since = 0;
    }
    if (target() - bound < 1e-7) break;
    const gap = Math.max(target() - value, 1e-3 * Math.abs(value), 1e-6);
    if (!step(prices, slope, direction, length * gap)) break;
  }
  return { bound, prices: best };
}

/** One step along the deflected slope; false when nothing is used beyond what there is. */
function step(prices: Float64Array, slope: Float64Array, direction: Float64Array, reach: number): boolean {
  let norm = 0;
  for (let i = 0; i < prices.length; i++) {
    // A price at zero that would fall further does not count.
    const own = prices[i] === 0 && slope[i]! < 0 ? 0 : slope[i]!;
    const turned = NEWEST * own + (1 - NEWEST) * direction[i]!;
    direction[i] = turned;
    norm += turned * turned;
  }
  if (!(norm > 1e-12)) return false;
  const by = reach / norm;
  for (let i = 0; i < prices.length; i++) {
    const moved = prices[i]! + by * direction[i]!;
    prices[i] = moved > 0 ? moved : 0;
  }
  return true;
}
