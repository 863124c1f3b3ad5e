import { sumPrices } from "@/lib/domain/settling/days/day-lagrangian";
import { insertCheapest } from "@/lib/domain/settling/days/class-search";
import type { Candidates } from "@/lib/domain/settling/days/class-candidates";
import { ClassPlan } from "@/lib/domain/settling/days/class-plan";
import { LEFT_OUT } from "@/lib/domain/settling/days/day-plan";
import type { DayTables } from "@/lib/domain/settling/days/day-tables";
import type { Effort } from "@/lib/domain/settling/effort";

/** Evaluations between two rounds of fixing, and the share of runs fixed in a round. */
const LOOKS = 10;
const SHARE = 0.0025;
const NEWEST = 0.3;

/**
 * A plan made of prices: they go on being adjusted while, round after round, the runs that chose the
 * same kiln and days most steadily are fixed there. What fits nowhere in the end is put in where it
 * costs least, or left out. Ends early, with everything put in at once, when the effort is spent.
 *
 * `aim`: steps aim this share above what the prices give now; small, for the prices are good already.
 */
export function dive(tables: DayTables, candidates: Candidates, start: Float64Array, effort: Effort, aim: number): ClassPlan {
  const plan = new ClassPlan(tables);
  const prices = Float64Array.from(start);
  const paid = new Float64Array((tables.classes + 1) * (tables.span + 1));
  let open = Array.from({ length: tables.jobs }, (_, job) => job);
  const fewest = Math.max(1, Math.round(SHARE * tables.jobs));
  const slope = new Float64Array(prices.length);
  const direction = new Float64Array(prices.length);
  const chosen = Array.from({ length: tables.jobs }, () => new Map<number, number>());
  for (let round = 0; open.length > 0 && effort.spent(round) < 1; round++) {
    for (const counts of chosen) counts.clear();
    direction.fill(0);
    for (let look = 0; look < LOOKS && effort.spent(round) < 1; look++) {
      let value = plan.cost - open.length * LEFT_OUT + sumPrices(tables, prices, plan.left, paid);
      for (let i = 0; i < slope.length; i++) slope[i] = -plan.left[i]!;
      for (const job of open) {
        const { choice, cost } = cheapestFitting(plan, candidates[job]!, job, prices, paid);
        if (choice < 0) continue;
        value += cost;
        addUse(tables, job, choice, slope);
        chosen[job]!.set(choice, (chosen[job]!.get(choice) ?? 0) + 1);
      }
      stepPrices(prices, slope, direction, aim * Math.abs(value));
    }
    const steady = open
      .flatMap((job) => mostChosen(job, chosen[job]!))
      .sort((a, b) => b.times - a.times || a.job - b.job);
    if (steady.length === 0) break;
    // More at a time when the effort would not last otherwise.
    const spent = effort.spent(round);
    const perRound = Math.max(fewest, Math.ceil((open.length * spent) / Math.max(1e-3, (round + 1) * (1 - spent))));
    steady.forEach(({ job, choice, times }, i) => {
      if ((i < perRound || times === LOOKS) && plan.fits(job, choice)) plan.put(job, choice);
    });
    open = open.filter((job) => plan.choice[job] === -1);
  }
  insertCheapest(plan, candidates, open.sort((a, b) => tables.problem.jobs[b]!.weight - tables.problem.jobs[a]!.weight), null);
  return plan;
}

function mostChosen(job: number, counts: ReadonlyMap<number, number>): { job: number; choice: number; times: number }[] {
  let choice = -1;
  let times = 0;
  for (const [one, count] of counts) {
    if (count <= times) continue;
    choice = one;
    times = count;
  }
  return choice < 0 ? [] : [{ job, choice, times }];
}

function stepPrices(prices: Float64Array, slope: Float64Array, direction: Float64Array, reach: number): void {
  let norm = 0;
  for (let i = 0; i < prices.length; i++) {
    const own = prices[i] === 0 && slope[i]! < 0 ? 0 : slope[i]!;
    direction[i] = NEWEST * own + (1 - NEWEST) * direction[i]!;
    norm += direction[i]! ** 2;
  }
  if (!(norm > 1e-12)) return;
  for (let i = 0; i < prices.length; i++) prices[i] = Math.max(0, prices[i]! + (reach / norm) * direction[i]!);
}

/** The choice that is cheapest at these prices among those that still fit; −1 when none does. */
function cheapestFitting(plan: ClassPlan, candidates: Int32Array, job: number, prices: Float64Array, paid: Float64Array): { choice: number; cost: number } {
  const { span, classes, rowOf, end, cost } = plan.tables;
  let least = Infinity;
  let best = -1;
  for (let i = 0; i < candidates.length; i++) {
    const choice = candidates[i]!;
    const cls = Math.floor(choice / span);
    const s = choice - cls * span;
    const row = rowOf[job * classes + cls]!;
    const own = cost[row + s]!;
    if (own >= least) continue;
    const e = end[row + s]!;
    const at = cls * (span + 1);
    const sum = own + paid[at + e]! - paid[at + s]! + prices[classes * span + s]! + prices[classes * span + e]!;
    if (sum < least && plan.fits(job, choice)) {
      least = sum;
      best = choice;
    }
  }
  return { choice: best, cost: best < 0 ? 0 : least };
}

function addUse({ span, classes, rowOf, end }: DayTables, job: number, choice: number, slope: Float64Array): void {
  const cls = Math.floor(choice / span);
  const s = choice - cls * span;
  const e = end[rowOf[job * classes + cls]! + s]!;
  for (let i = choice; i < cls * span + e; i++) slope[i]!++;
  slope[classes * span + s]!++;
  slope[classes * span + e]!++;
}
