import { clockBudget } from "@/lib/domain/settling/effort";
import type { HourProblem } from "@/lib/domain/settling/hours/hour-problem";
import { settleHours } from "@/lib/domain/settling/hours/settle-hours";
import { seeded } from "../seeded";
import { oneKiln, weightedTardiness } from "./instances";
import { cpuSeconds, say, timed } from "./say";

/** The costs below which no plan can be are a fault of the engine or of the list; said, never passed over. */
const SAME = 1e-6;

/** One kiln, all asks ready at once: every published instance of a size, each until its best value is reached or its computing time is over. */
export async function benchPublished(size: number, secondsEach: number, goal: string): Promise<void> {
  const known = weightedTardiness(size);
  if (known.length === 0) {
    say(`weighted tardiness, ${size} jobs`, "skipped, the OR-Library's files are not at hand");
    return;
  }
  let [reached, below] = [0, 0];
  const { seconds, cpu } = await timed(() => {
    for (const { problem, best } of known) {
      const cost = until(problem, 1, secondsEach, best);
      if (Math.abs(cost - best) < SAME) reached++;
      if (cost < best - SAME) below++;
    }
  });
  say(`weighted tardiness, wt${size}`, `${reached} of ${known.length} at the best known value, ${below} below it, ${cpu.toFixed(2)} s computing, ${seconds.toFixed(2)} s in all (goal ${goal})`);
}

/**
 * Instances made like the published ones (times 1–100, weights 1–10, dates spread by two factors): how many of them
 * several seeds end with the same cost on, which is the only sign of an optimum where none is published.
 */
export async function benchMade(size: number, instances: number, secondsEach: number): Promise<void> {
  const SEEDS = [1, 2, 3];
  let [agreed, worst] = [0, 0];
  const { cpu } = await timed(() => {
    for (let i = 0; i < instances; i++) {
      const problem = made(size, i);
      const costs = SEEDS.map((seed) => until(problem, seed, secondsEach, -1));
      const best = Math.min(...costs);
      if (costs.every((cost) => cost - best < SAME)) agreed++;
      else worst = Math.max(worst, (100 * (Math.max(...costs) - best)) / best);
    }
  });
  say(`weighted tardiness, ${size} jobs, ${instances} instances of our own`, `${SEEDS.length} seeds end alike on ${agreed}, apart by ${worst.toFixed(3)} % at most, ${secondsEach} s computing each, ${cpu.toFixed(0)} s in all`);
}

/** The cost after so much computing, or when `goal` is reached. */
function until(problem: HourProblem, seed: number, seconds: number, goal: number): number {
  let cost = Infinity;
  const budget = clockBudget(seconds, cpuSeconds, () => cost <= goal + SAME);
  const found = settleHours(problem, seed, budget, { onBetter: (plan) => (cost = plan.cost), onBound: () => undefined });
  return found.cost;
}

/** C. N. Potts & L. N. Van Wassenhove, Operations Research 33 (1985): dates within a range around a share of all work. */
function made(size: number, instance: number): HourProblem {
  const random = seeded(101 + instance * 37 + size);
  random();
  const upTo = (most: number): number => 1 + Math.floor(random() * most);
  const [range, tardiness] = [0.2 * (1 + (instance % 5)), 0.2 * (1 + (Math.floor(instance / 5) % 5))];
  const hours = Array.from({ length: size }, () => upTo(100));
  const work = hours.reduce((sum, one) => sum + one, 0);
  return oneKiln(hours.map((one) => ({ hours: one, weight: upTo(10), dueH: Math.round(work * (1 - tardiness + range * (random() - 0.5))) })));
}
