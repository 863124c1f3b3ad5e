import { NO_WISHES, type ClashGround, type Wishes } from "@/lib/domain/settling/clash/clash-ground";
import { clashProblem } from "@/lib/domain/settling/clash/clash-problem";
import { inDays } from "@/lib/domain/settling/clash/season-slots";
import { settlementOf, type Figures, type Settlement } from "@/lib/domain/settling/clash/settlement";
import { AIMS, DEFAULT_WEIGHTS, weightsFor, type Aim, type SettlingWeights } from "@/lib/domain/settling/clash/weights";
import { wishProblems } from "@/lib/domain/settling/clash/wish-problems";
import { dayProblemFaults, type SayDay } from "@/lib/domain/settling/days/day-problem-faults";
import { lengthFaults } from "@/lib/domain/settling/clash/length-faults";
import type { DayProblem } from "@/lib/domain/settling/days/day-problem";
import type { DaySettlement } from "@/lib/domain/settling/days/search-days";
import { settleDays } from "@/lib/domain/settling/days/settle-days";
import type { Budget } from "@/lib/domain/settling/effort";
import { verifyDays } from "@/lib/domain/settling/verify";
import { ok, refusalOf, refuse, type Outcome } from "@/lib/domain/refusal";

export type ClashOptions = {
  readonly wishes?: Wishes;
  readonly weights?: SettlingWeights;
  readonly seed?: number;
  /** What each of the three may take. */
  readonly budget: () => Budget;
  /** Says a day of the calendar to people: "Mon 8 June". */
  readonly sayDay: SayDay;
};

/**
 * Up to three really different ways out of a clash, each complete: every ask placed, every run that
 * stands kept or moved, each checked by the verifier. Equal ones are given once, and one that is in
 * no figure better than another, and in some worse, is left out. Refused in sentences when the
 * wishes contradict each other or the facts, or when somebody finds no place.
 */
export function settleClash(ground: ClashGround, { wishes = NO_WISHES, weights = DEFAULT_WEIGHTS, seed = 1, budget, sayDay }: ClashOptions): Outcome<readonly Settlement[]> {
  const refused = refusalOf(wishProblems(ground, wishes, sayDay));
  if (refused !== undefined) return refused;
  const found: Settlement[] = [];
  for (const aim of AIMS) {
    const one = settleFor(ground, wishes, weights, aim, seed, budget(), sayDay);
    if (!one.ok) return one;
    found.push(one.value);
  }
  return ok(reallyDifferent(found));
}

/** The settlement of one aim, with what is proven about it. */
export function settleFor(ground: ClashGround, wishes: Wishes, weights: SettlingWeights, aim: Aim, seed: number, budget: Budget, sayDay: SayDay): Outcome<Settlement> {
  const problem = problemFor(ground, wishes, weights, aim, sayDay);
  if (!problem.ok) return problem;
  let bound = 0;
  const hooks = { onBetter: () => undefined, onBound: (found: number) => void (bound = Math.max(bound, found)), bound: () => bound };
  return settlementFrom(ground, aim, problem.value, settleDays(problem.value, seed, budget, hooks), bound, sayDay);
}

/** What is to be settled for one aim, or why it cannot be. */
export function problemFor(ground: ClashGround, wishes: Wishes, weights: SettlingWeights, aim: Aim, sayDay: SayDay): Outcome<DayProblem> {
  const problem = clashProblem(ground, wishes, weightsFor(aim, weights));
  return refusalOf(lengthFaults(ground)) ?? refusalOf(dayProblemFaults(problem, sayDay)) ?? ok(problem);
}

/**
 * A plan that was found, as a settlement, or who has found no place.
 * @throws when the plan does not stand by the verifier, which is a bug
 */
export function settlementFrom(ground: ClashGround, aim: Aim, problem: DayProblem, { placements, cost, leftOut }: DaySettlement, bound: number, sayDay: SayDay): Outcome<Settlement> {
  if (leftOut > 0) {
    const placed = new Set(placements.map(({ job }) => job));
    const names = ground.runs.filter((_, job) => !placed.has(job)).map(({ title }) => title);
    return refuse({ code: "no-place", message: `No place was found for ${names.join(", ")} before ${sayDay(ground.handsOn.length - 1)}.` });
  }
  const doubts = verifyDays(problem, placements, cost);
  if (doubts.length > 0) throw new Error(`A settlement does not stand: ${doubts.join(" ")}`);
  return ok(settlementOf(ground, aim, inDays(problem, placements), cost, Math.min(bound, cost)));
}

/** What settlements are compared by; less is better in each. */
const COMPARED: readonly (keyof Figures)[] = ["weightedDaysLate", "moved", "otherKilns", "daysMoved", "nearChanges"];

/** Without repetitions, and without what another one beats or equals in every figure. */
export function reallyDifferent(settlements: readonly Settlement[]): Settlement[] {
  return settlements.filter((one, i) => !settlements.some((other, j) => i !== j && isCoveredBy(one, other, j < i)));
}

function isCoveredBy(one: Settlement, other: Settlement, otherIsFirst: boolean): boolean {
  if (COMPARED.some((figure) => other.figures[figure] > one.figures[figure])) return false;
  return otherIsFirst || COMPARED.some((figure) => other.figures[figure] < one.figures[figure]);
}
