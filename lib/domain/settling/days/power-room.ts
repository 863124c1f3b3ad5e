import type { DayPlan } from "@/lib/domain/settling/days/day-plan";
import type { DayTables } from "@/lib/domain/settling/days/day-tables";

const TOLERANCE_KW = 1e-6;

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
      const to = Math.min(days, from + this.heats(job, plan.start[job]!));
      for (let day = from; day < to; day++) own[day]! += powerKw[kiln]!;
    }
    lacks[days] = days;
    for (let day = days - 1; day >= 0; day--) {
      const isEnough = plan.powerUsed[day]! - own[day]! + powerKw[kiln]! <= (powerLeftKw?.[day] ?? Infinity) + TOLERANCE_KW;
      lacks[day] = isEnough ? lacks[day + 1]! : day;
    }
  }

  /** True when a job may heat this kiln from this index on, beside everything on other kilns. */
  isThere(job: number, start: number): boolean {
    const from = this.tables.dayOf[start]!;
    return this.lacks[from]! >= Math.min(this.own.length, from + this.heats(job, start));
  }

  private heats(job: number, start: number): number {
    const { heats, rowOf, classes, classOf } = this.tables;
    return heats[rowOf[job * classes + classOf[this.kiln]!]! + start]!;
  }
}
