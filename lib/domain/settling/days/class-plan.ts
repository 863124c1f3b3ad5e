import { dayRoom } from "@/lib/domain/settling/days/day-lagrangian";
import { LEFT_OUT } from "@/lib/domain/settling/days/day-plan";
import type { DayTables } from "@/lib/domain/settling/days/day-tables";
import { SteamerRoom } from "@/lib/domain/settling/days/steamers";

/**
 * A plan that says for every run only the class of its kiln and its days. Enough for many kilns alike:
 * as long as no class has more runs on a day than kilns, they can be dealt out (see `dealOut`).
 */
export class ClassPlan {
  /** By job: class × span + start, or −1. */
  readonly choice: Int32Array;
  /** Kiln days left by class and index, then loads and unloads left by index. */
  readonly left: Float64Array;
  readonly loadsAt: Int16Array;
  version = 0;
  cost: number;
  private readonly power: Float64Array;
  private readonly steamers: SteamerRoom;

  constructor(readonly tables: DayTables) {
    this.choice = new Int32Array(tables.jobs).fill(-1);
    this.left = dayRoom(tables);
    this.loadsAt = new Int16Array(tables.span);
    this.power = Float64Array.from({ length: tables.problem.horizon }, (_, day) => tables.problem.powerLeftKw?.[day] ?? Infinity);
    this.steamers = new SteamerRoom(tables);
    this.cost = tables.jobs * LEFT_OUT;
  }

  /** True when a job still fits at a choice beside everything that is placed. */
  fits(job: number, choice: number): boolean {
    const { span, classes, end, rowOf } = this.tables;
    const cls = Math.floor(choice / span);
    const start = choice - cls * span;
    const e = end[rowOf[job * classes + cls]! + start]!;
    if (e < 0 || this.left[classes * span + start]! < 1 || this.left[classes * span + e]! < 1) return false;
    for (let i = choice; i < cls * span + e; i++) if (this.left[i]! < 1) return false;
    return (!this.tables.problem.jobs[job]!.steams || this.steamers.openFor(this)[start] === 1) && this.hasPower(job, cls, start);
  }

  put(job: number, choice: number): void {
    this.use(job, choice, 1);
    this.choice[job] = choice;
    this.cost += this.costOf(job, choice) - LEFT_OUT;
  }

  take(job: number): void {
    const choice = this.choice[job]!;
    this.use(job, choice, -1);
    this.choice[job] = -1;
    this.cost += LEFT_OUT - this.costOf(job, choice);
  }

  costOf(job: number, choice: number): number {
    const { span, classes, cost, rowOf } = this.tables;
    const cls = Math.floor(choice / span);
    return cost[rowOf[job * classes + cls]! + choice - cls * span]!;
  }

  private use(job: number, choice: number, by: 1 | -1): void {
    const { span, classes, end, heats, rowOf, problem, dayOf } = this.tables;
    const cls = Math.floor(choice / span);
    const start = choice - cls * span;
    const row = rowOf[job * classes + cls]!;
    const e = end[row + start]!;
    for (let i = choice; i < cls * span + e; i++) this.left[i]! -= by;
    this.left[classes * span + start]! -= by;
    this.left[classes * span + e]! -= by;
    this.version++;
    if (problem.jobs[job]!.steams) this.loadsAt[start]! += by;
    if (problem.powerLeftKw === null) return;
    for (let day = dayOf[start]!; day < dayOf[start]! + heats[row + start]! && day < problem.horizon; day++) this.power[day]! -= by * this.kw(cls);
  }

  private hasPower(job: number, cls: number, start: number): boolean {
    const { problem, dayOf, heats, rowOf, classes } = this.tables;
    if (problem.powerLeftKw === null) return true;
    const from = dayOf[start]!;
    for (let day = from; day < from + heats[rowOf[job * classes + cls]! + start]! && day < problem.horizon; day++) if (this.power[day]! + 1e-6 < this.kw(cls)) return false;
    return true;
  }

  private kw(cls: number): number {
    return this.tables.problem.powerKw[this.tables.classOf.indexOf(cls)]!;
  }
}
