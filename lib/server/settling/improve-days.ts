import { dayModel, planOfSolution } from "@/lib/domain/settling/days/day-model";
import { dayCost, type DayProblem } from "@/lib/domain/settling/days/day-problem";
import type { DayTables } from "@/lib/domain/settling/days/day-tables";
import { dealOut } from "@/lib/domain/settling/days/deal-out";
import { withinCeiling } from "@/lib/domain/settling/days/reduced-cost";
import { settlementOf, type DaySettlement } from "@/lib/domain/settling/days/search-days";
import { runsAround, setFree } from "@/lib/domain/settling/days/set-free";
import { seededRandom } from "@/lib/domain/settling/random";
import type { SharedPlan } from "@/lib/server/settling/shared-figures";
import type { Solve } from "@/lib/server/settling/solver";

/** Seconds for one part of a plan; a part that takes longer is too large. */
const SECONDS = 2.5;
const QUICK = 0.8;
const FIRST_RUNS = 40;
const FEWEST_RUNS = 20;
const STEP = 3;
/** Beyond so many starts a part is not worth beginning. */
const MOST_COLUMNS = 8_000;
/** After so many parts in a row that could not be bettered, the plan as a whole is better proven. */
const STUCK = 25;

/** Betters a plan by settling a part of it anew at a time, exactly, while the rest stays: what no search run by run comes upon. */
export class DayImprover {
  private readonly random = seededRandom(1);
  private runs = FIRST_RUNS;
  private since = 0;

  constructor(private readonly problem: DayProblem, private readonly tables: DayTables, private readonly prices: Float64Array, private readonly solve: Solve) {}

  get isStuck(): boolean {
    return this.since >= STUCK;
  }

  /** Settles one part; tells a better whole plan. `clock` is in seconds. */
  step({ cost, placements }: SharedPlan, clock: () => number, isOver: () => boolean, onBetter: (plan: DaySettlement) => void): void {
    const { problem, prices } = this;
    const around = runsAround(this.tables, placements, (one) => dayCost(problem, [one]), this.runs, this.random);
    const cut = setFree(withinCeiling(this.tables, prices, cost).tables, placements, around);
    const model = dayModel(cut, MOST_COLUMNS);
    this.since++;
    if (model === undefined) {
      this.fewer();
      return;
    }
    const from = clock();
    const status = this.solve(model, SECONDS, {
      onBound: () => undefined,
      onSolution: (values) => {
        const plan = planOfSolution(cut, model, values);
        if (plan === undefined) return;
        const settlement = settlementOf(dealOut(plan));
        if (settlement.leftOut > 0 || !(settlement.cost < cost - 1e-6)) return;
        this.since = 0;
        onBetter(settlement);
      },
      isOver,
    });
    if (status === "ended") this.fewer();
    else if (clock() - from < QUICK) this.runs = Math.min(problem.jobs.length, this.runs + STEP);
  }

  private fewer(): void {
    this.runs = Math.max(FEWEST_RUNS, this.runs - STEP);
  }
}
