import type { DayPlan } from "@/lib/domain/settling/days/day-plan";
import type { DayTables } from "@/lib/domain/settling/days/day-tables";

const TOLERANCE_KW = 1e-6;
const NEVER = 2 ** 30;

/** What the runs of all other kilns leave one kiln of the power. */
export class PowerRoom {
  private readonly own: Float64Array;
  /** By calendar day, the first from it on that has too little power for this kiln. */
  private readonly lacks: Int32Array;
  private version = -1;

  constructor(private readonly tables: DayTables, private readonly kiln: number) {
    const days = tables.problem.powerLeftKw === null ? 0 : tables.problem.horizon;
    this.own = new Float64Array(days);
    this.lacks = new Int32Array(days + 1);
  }

  /** Looks at the plan as it is; at once when it has not changed. */
  look(plan: DayPlan): void {
    if (plan.version === this.version) return;
    this.version = plan.version;
    const { tables, kiln, own, lacks } = this;
    const { powerLeftKw, powerKw } = tables.problem;
    const days = own.length;
    own.fill(0);
    for (const job of plan.orders[kiln]!) {
      const from = tables.dayOf[plan.start[job]!]!;
      const to = Math.min(days, from + tables.heats[this.rowOf(job) + plan.start[job]!]!);
      for (let day = from; day < to; day++) own[day]! += powerKw[kiln]!;
    }
    lacks[days] = NEVER;
    for (let day = days - 1; day >= 0; day--) {
      const isEnough = plan.powerUsed[day]! - own[day]! + powerKw[kiln]! <= (powerLeftKw?.[day] ?? Infinity) + TOLERANCE_KW;
      lacks[day] = isEnough ? lacks[day + 1]! : day;
    }
  }

  /** Writes −1 over the ends of a job, which begin at `to`, for starts from which it may not heat beside everything on other kilns. */
  block(ends: Int16Array, to: number, job: number, first: number, last: number): void {
    const { lacks, tables } = this;
    const { heats, dayOf } = tables;
    const row = this.rowOf(job);
    for (let s = first; s <= last; s++) {
      const from = dayOf[s]!;
      if (lacks[from]! < from + heats[row + s]!) ends[to + s] = -1;
    }
  }

  private rowOf(job: number): number {
    const { rowOf, classes, classOf } = this.tables;
    return rowOf[job * classes + classOf[this.kiln]!]!;
  }
}
