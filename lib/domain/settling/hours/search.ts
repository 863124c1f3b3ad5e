import { takes } from "@/lib/domain/settling/annealing";
import type { Effort } from "@/lib/domain/settling/effort";
import { hourCost, type HourPlacement, type HourProblem } from "@/lib/domain/settling/hours/hour-problem";
import { orderHours, recreateHours } from "@/lib/domain/settling/hours/recreate";
import { ruinHours } from "@/lib/domain/settling/hours/ruin";
import { copyKiln, emptySequences, placementsOf, type KilnSequence, type Sequences } from "@/lib/domain/settling/hours/sequences";
import type { Random } from "@/lib/domain/settling/random";

export type HourPlan = { readonly placements: readonly HourPlacement[]; readonly cost: number };

/** Set by the size of the problem, not by instances: shares of the mean cost of an ask in a first plan. */
const HOT = 0.8;
const COLD = 0.02;

/**
 * Ruin and recreate with annealing over the orders on all kilns. Every ask must fit some kiln.
 * Calls `onBetter` with every plan that is better than all before it; `goal()` is a cost known to be
 * the least possible, at which it stops.
 */
export function searchHours(problem: HourProblem, random: Random, effort: Effort, onBetter: (plan: HourPlan) => void, goal: () => number = () => 0): HourPlan {
  const fits = problem.asks.map(({ hours }) => Int32Array.from(hours.flatMap((length, kiln) => (length > 0 ? [kiln] : []))));
  const plan = greedy(problem, fits, random);
  let best = kept(problem, plan);
  onBetter(best);
  if (problem.asks.length === 0) return best;
  const mean = Math.max(1e-6, plan.cost / problem.asks.length);
  const annealing = { hot: HOT * mean, cold: COLD * mean };
  const undo = new Map<number, KilnSequence>();
  const touch = (kiln: number): void => {
    if (!undo.has(kiln)) undo.set(kiln, copyKiln(plan.kilns[kiln]!));
  };
  for (let iteration = 0; best.cost > goal(); iteration++) {
    const spent = effort.spent(iteration);
    if (spent >= 1) break;
    const before = plan.cost;
    undo.clear();
    const removed = ruinHours(plan, fits, random, touch);
    recreateHours(plan, fits, orderHours(plan, removed, random), random, touch);
    if (!takes(plan.cost - before, spent, annealing, random)) restore(plan, undo, before);
    else if (plan.cost < best.cost - 1e-6) {
      best = kept(problem, plan);
      onBetter(best);
    }
  }
  return best;
}

/** The best of a few plans made by putting in one ask after another. */
function greedy(problem: HourProblem, fits: readonly Int32Array[], random: Random): Sequences {
  const { asks } = problem;
  const all = asks.map((_, ask) => ask);
  const orders = [
    all.toSorted((a, b) => asks[a]!.dueH - asks[b]!.dueH),
    all.toSorted((a, b) => asks[b]!.weight - asks[a]!.weight),
    all.toSorted((a, b) => asks[a]!.releaseH - asks[b]!.releaseH),
  ];
  const plans = orders.map((order) => {
    const plan = emptySequences(problem);
    recreateHours(plan, fits, order, random, () => undefined);
    return plan;
  });
  return plans.reduce((best, plan) => (plan.cost < best.cost ? plan : best));
}

function restore(plan: Sequences, undo: ReadonlyMap<number, KilnSequence>, cost: number): void {
  for (const [kiln, sequence] of undo) {
    plan.kilns[kiln] = sequence;
    for (let i = 0; i < sequence.count; i++) plan.kilnOf[sequence.asks[i]!] = kiln;
  }
  plan.cost = cost;
}

function kept(problem: HourProblem, plan: Sequences): HourPlan {
  const placements = placementsOf(plan);
  return { placements, cost: hourCost(problem, placements) };
}
