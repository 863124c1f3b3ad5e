import { takes, type Annealing } from "@/lib/domain/settling/annealing";
import { dayPlacements, dropOthers, emptyDayPlan, exactCost, planCost, putOrder, setOrder, type DayPlan } from "@/lib/domain/settling/days/day-plan";
import type { DayPlacement } from "@/lib/domain/settling/days/day-problem";
import { DayWorkbench } from "@/lib/domain/settling/days/day-recreate";
import { OpToll } from "@/lib/domain/settling/days/op-toll";
import { ruinDays } from "@/lib/domain/settling/days/day-ruin";
import { firstAtOrAfter, type DayTables } from "@/lib/domain/settling/days/day-tables";
import type { Effort } from "@/lib/domain/settling/effort";
import { shuffle, type Random } from "@/lib/domain/settling/random";

/**
 * A settlement in days. `leftOut` jobs found no place; they weigh more in the cost than any lateness.
 * `isCutShort`: the budget was over before every job had been looked at, so they may have one.
 */
export type DaySettlement = { readonly placements: readonly DayPlacement[]; readonly cost: number; readonly leftOut: number; readonly isCutShort?: boolean };

/**
 * Ruin and recreate with annealing over the orders on all kilns, every order timed exactly, from
 * `plan` on, which it changes. Where `toll` allows it, plans on the way may load and unload more on a
 * day than it allows, at a price. Calls `onBetter` with every plan that stands and is better than all
 * before; stops at `goal()`, a cost known to be the least.
 */
export function searchDays(plan: DayPlan, random: Random, effort: Effort, onBetter: (plan: DaySettlement) => void, goal: () => number, annealing: Annealing, toll: OpToll = new OpToll()): DaySettlement {
  const { tables } = plan;
  const bench = new DayWorkbench(tables, toll);
  let best = settlementOf(plan);
  onBetter(best);
  if (tables.jobs === 0) return best;
  const costNow = (): number => planCost(plan) + toll.of(plan.over);
  let cost = costNow();
  let bestCost = cost;
  const undo = new Map<number, { jobs: number[]; starts: number[] }>();
  const touch = (kiln: number): void => {
    if (!undo.has(kiln)) undo.set(kiln, { jobs: [...plan.orders[kiln]!], starts: plan.orders[kiln]!.map((job) => plan.start[job]!) });
  };
  for (let iteration = 0; best.cost > goal() + 1e-6; iteration++) {
    const spent = effort.spent(iteration);
    if (spent >= 1) break;
    undo.clear();
    const removed = ruinDays(plan, random, touch);
    if (plan.leftOut > removed.length) for (let job = 0; job < tables.jobs; job++) if (plan.kilnOf[job]! < 0 && !removed.includes(job)) removed.push(job);
    bench.insertAll(plan, inOrder(tables, removed, random), random, touch);
    for (const kiln of undo.keys()) bench.retime(plan, kiln, plan.orders[kiln]!, random);
    const now = costNow();
    if (!takes(now - cost, spent, annealing, random)) {
      for (const [kiln, { jobs, starts }] of undo) dropOthers(plan, kiln, jobs, starts);
      for (const [kiln, { jobs, starts }] of undo) putOrder(plan, kiln, jobs, starts);
    } else {
      cost = now;
      if (now < bestCost - 1e-6 && plan.over === 0) {
        bestCost = now;
        best = settlementOf(plan);
        onBetter(best);
      }
    }
    if (toll.isChangedBy(plan.over)) cost = costNow();
  }
  return best;
}

export function settlementOf(plan: DayPlan): DaySettlement {
  return { placements: dayPlacements(plan), cost: exactCost(plan), leftOut: plan.leftOut };
}

/** A settlement as a plan on tables of its problem, to go on from. */
export function planOf(tables: DayTables, { placements }: DaySettlement): DayPlan {
  const plan = emptyDayPlan(tables);
  for (let kiln = 0; kiln < tables.kilns; kiln++) {
    const own = placements.filter((placement) => placement.kiln === kiln).sort((a, b) => a.start - b.start);
    setOrder(plan, kiln, own.map(({ job }) => job), own.map(({ start }) => firstAtOrAfter(tables.dayOf, start)));
  }
  return plan;
}

/** An order to put runs back in: by chance, heaviest first, soonest due first, first ready, or longest first. */
function inOrder({ problem }: DayTables, removed: number[], random: Random): number[] {
  shuffle(removed, removed.length, random);
  const job = (index: number) => problem.jobs[index]!;
  const longest = (index: number): number => job(index).daysByClass.reduce((most, days) => Math.max(most, days), 0);
  const kind = random.below(8);
  if (kind === 0) removed.sort((a, b) => job(b).weight - job(a).weight);
  else if (kind === 1) removed.sort((a, b) => job(a).due - job(b).due);
  else if (kind === 2) removed.sort((a, b) => job(a).earliest - job(b).earliest);
  else if (kind === 3) removed.sort((a, b) => longest(b) - longest(a));
  return removed;
}
