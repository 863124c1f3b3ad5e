import type { DayPlan } from "@/lib/domain/settling/days/day-plan";
import type { DayTables } from "@/lib/domain/settling/days/day-tables";
import type { OpToll } from "@/lib/domain/settling/days/op-toll";
import { PowerRoom } from "@/lib/domain/settling/days/power-room";
import type { SteamerRoom } from "@/lib/domain/settling/days/steamers";
import type { Random } from "@/lib/domain/settling/random";

/** What a day still gives a kiln: one op, two ops (to unload and load again), a load that finds its steamer. */
const ONE = 1;
const TWO = 2;
const STEAM = 4;
/** Changes of the plan after which prices are looked at again. */
const STALE = 100;
/** Costs nearer than this are the same; far below any price. */
const SAME = 1e-9;

/**
 * Best days for the order of one kiln, everything else standing still, by a dynamic programme over
 * days. `before[i]` tells what the first i runs cost at least when the next is loaded at an index,
 * `after[i]` what run i and all later ones cost at least when the kiln is unloaded at an index; so
 * putting a run in anywhere is priced exactly by one pass over its starts.
 */
export class KilnTiming {
  private order: readonly number[] = [];
  private before = new Float64Array(0);
  private after = new Float64Array(0);
  /** By run of the order and start: the index of unloading, −1 where it cannot be. */
  private ends = new Int16Array(0);
  /** By run of the order: the first start at which those before it can be over. */
  private from = new Int16Array(0);
  private readonly ownEnds: Int16Array;
  private readonly day: Uint8Array;
  private readonly fresh: Uint8Array;
  private readonly power: PowerRoom;
  /** By index: what an op costs here, and what a load costs more on the day of an unload. */
  private readonly toll: Float64Array;
  private readonly twice: Float64Array;
  private perOp = NaN;
  private valid = false;
  private version = -1;
  /** What the order costs at least now; Infinity when it cannot stand. */
  total = 0;

  constructor(private readonly tables: DayTables, private readonly kiln: number, private readonly opToll: OpToll) {
    this.day = new Uint8Array(tables.span);
    this.fresh = new Uint8Array(tables.span);
    this.ownEnds = new Int16Array(tables.span);
    this.power = new PowerRoom(tables, kiln);
    this.toll = new Float64Array(tables.span);
    this.twice = new Float64Array(tables.span);
  }

  /**
   * Brings the tables up to date with the plan, for the kiln's own order or another one to be tried;
   * cheap when nothing this kiln can feel has changed.
   */
  prepare(plan: DayPlan, steamers: SteamerRoom, order: readonly number[] = plan.orders[this.kiln]!): void {
    if (this.perOp !== this.opToll.perOp) this.valid = false;
    this.perOp = this.opToll.perOp;
    if (this.valid && plan.version === this.version && sameOrder(order, this.order)) return;
    this.version = plan.version;
    const isOther = this.lookAtDays(plan, steamers, plan.orders[this.kiln]!);
    // What heats elsewhere is not among the days compared here.
    const isPowered = this.tables.problem.powerLeftKw !== null;
    if (this.valid && !isPowered && !isOther && sameOrder(order, this.order)) return;
    this.fillTolls();
    this.order = [...order];
    this.valid = true;
    const width = this.tables.reach + 1;
    const rows = (order.length + 1) * width;
    if (this.before.length < rows) {
      this.before = new Float64Array(rows + 2 * width);
      this.after = new Float64Array(rows + 2 * width);
      this.ends = new Int16Array(rows + 2 * width);
      this.from = new Int16Array(order.length + 3);
    }
    let free = 0;
    order.forEach((job, i) => {
      this.from[i] = Math.max(free, this.tables.first[this.at(job)]!);
      free = this.fillEnds(plan, job, this.ends, i * width, this.from[i]!);
    });
    this.from[order.length] = free;
    this.fillAfter();
    this.fillBefore();
  }

  /**
   * As `prepare`, but content with tables of the same order made a few changes of the plan ago. Good
   * enough to choose a place by; what is placed is timed exactly afterwards.
   */
  prepareRoughly(plan: DayPlan, steamers: SteamerRoom): void {
    const order = plan.orders[this.kiln]!;
    if (this.valid && plan.version - this.version < STALE && sameOrder(order, this.order)) return;
    this.prepare(plan, steamers);
  }

  /** The cheapest place for a job not on this kiln: what the whole kiln costs then, and where; −1 at `enough` or more. */
  cheapestPlace(plan: DayPlan, job: number, enough: number): { total: number; position: number } {
    const { tables, before, after, ownEnds, toll } = this;
    const { reach, cost } = tables;
    const at = this.at(job);
    const row = tables.rowOf[at]!;
    const first = tables.first[at]!;
    const last = tables.last[at]!;
    const rises = tables.rises[job]!;
    const width = reach + 1;
    let total = enough;
    let position = -1;
    this.fillEnds(plan, job, ownEnds, 0, first);
    for (let i = this.order.length; i >= 0; i--) {
      const ahead = i * width;
      const others = before[ahead + reach]! + after[ahead]!;
      if (others >= total) continue;
      for (let s = first; s <= last; s++) {
        const e = ownEnds[s]!;
        if (e < 0) continue;
        const own = cost[row + s]!;
        if (s >= rises && others + own >= total) break;
        const sum = before[ahead + s]! + own + toll[s]! + toll[e]! + after[ahead + e]!;
        if (sum < total) {
          total = sum;
          position = i;
        }
      }
    }
    return { total, position };
  }

  /**
   * The best starts of the order this was prepared for, or nothing when it cannot stand. Among starts
   * that cost the same one is drawn: on which of them a kiln is loaded matters to the others.
   */
  starts(random: Random): number[] | undefined {
    if (this.total === Infinity) return undefined;
    const { tables, order, after, ends, toll, twice } = this;
    const { reach, cost } = tables;
    const width = reach + 1;
    const starts: number[] = [];
    let from = 0;
    for (let i = 0; i < order.length; i++) {
      const own = this.at(order[i]!);
      const row = tables.rowOf[own]!;
      let least = Infinity;
      let at = -1;
      let ties = 0;
      for (let s = Math.max(from, this.from[i]!); s <= tables.last[own]!; s++) {
        const e = ends[i * width + s]!;
        if (e < 0) continue;
        const sum = cost[row + s]! + toll[s]! + toll[e]! + (i > 0 && s === from ? twice[s]! : 0) + after[(i + 1) * width + e]!;
        if (sum === Infinity || sum > least + SAME) continue;
        if (sum < least - SAME) ties = 0;
        least = Math.min(least, sum);
        if (random.below(++ties) === 0) at = s;
      }
      if (at < 0) return undefined;
      starts.push(at);
      from = ends[i * width + at]!;
    }
    return starts;
  }

  private at(job: number): number {
    return job * this.tables.classes + this.tables.classOf[this.kiln]!;
  }

  /** Where a job loaded at each start from `first` on would be unloaded, given what the days allow; gives the soonest, or `reach`. */
  private fillEnds(plan: DayPlan, job: number, ends: Int16Array, to: number, first: number): number {
    const { tables, day } = this;
    const { span, end, freeUntil, problem, reach } = tables;
    const at = this.at(job);
    const row = tables.rowOf[at]!;
    const free = this.kiln * span;
    const op = this.perOp === Infinity ? ONE : 0;
    const needs = problem.jobs[job]!.steams ? op | STEAM : op;
    const last = tables.last[at]!;
    for (let s = first; s <= last; s++) {
      const e = end[row + s]!;
      ends[to + s] = (day[s]! & needs) === needs && e >= 0 && e <= freeUntil[free + s]! && (day[e]! & op) === op ? e : -1;
    }
    if (problem.powerLeftKw !== null) {
      this.power.look(plan);
      this.power.block(ends, to, job, first, last);
    }
    for (let s = first; s <= last; s++) if (ends[to + s]! >= 0) return ends[to + s]!;
    return reach;
  }

  private fillAfter(): void {
    const { tables, after, order, ends, toll, twice } = this;
    const { reach, cost } = tables;
    const width = reach + 1;
    after.fill(0, order.length * width, (order.length + 1) * width);
    this.total = 0;
    for (let i = order.length - 1; i >= 0; i--) {
      const at = i * width;
      const next = at + width;
      const own = this.at(order[i]!);
      const row = tables.rowOf[own]!;
      const first = this.from[i]!;
      const last = tables.last[own]!;
      let least = Infinity;
      after.fill(Infinity, at + Math.max(first, last + 1), next);
      for (let s = last; s >= first; s--) {
        const e = ends[at + s]!;
        const sum = e < 0 ? Infinity : cost[row + s]! + toll[s]! + toll[e]! + after[next + e]!;
        after[at + s] = Math.min(least, sum + twice[s]!);
        if (sum < least) least = sum;
      }
      after.fill(least, at, at + first);
      this.total = least;
    }
  }

  private fillBefore(): void {
    const { tables, before, order, ends, toll, twice } = this;
    const { reach, cost } = tables;
    const width = reach + 1;
    before.fill(0, 0, width);
    for (let i = 0; i < order.length; i++) {
      const at = i * width;
      const next = at + width;
      const own = this.at(order[i]!);
      const row = tables.rowOf[own]!;
      const last = tables.last[own]!;
      let least = Infinity;
      let told = next;
      // Ends never fall as starts move on, so what is unloaded at one index comes in a row.
      for (let s = this.from[i]!; s <= last; ) {
        const e = ends[at + s]!;
        if (e < 0) {
          s++;
          continue;
        }
        let sum = Infinity;
        for (; s <= last && (ends[at + s]! === e || ends[at + s]! < 0); s++) {
          const one = ends[at + s]! < 0 ? Infinity : before[at + s]! + cost[row + s]! + toll[s]!;
          if (one < sum) sum = one;
        }
        sum += toll[e]!;
        for (; told < next + e; told++) before[told] = least;
        before[told++] = Math.min(least, sum + twice[e]!);
        if (sum < least) least = sum;
      }
      for (; told < next + width; told++) before[told] = least;
    }
  }

  private fillTolls(): void {
    const { day, toll, twice, perOp } = this;
    for (let i = 0; i < this.tables.reach; i++) {
      const isOne = (day[i]! & ONE) !== 0;
      toll[i] = isOne || perOp === Infinity ? 0 : perOp;
      twice[i] = isOne && (day[i]! & TWO) === 0 ? perOp : 0;
    }
  }

  /** What every day gives this kiln when its own order is taken off it; false when that is as before. */
  private lookAtDays(plan: DayPlan, steamers: SteamerRoom, order: readonly number[]): boolean {
    const { tables, fresh, day } = this;
    const { span, ops, reach } = tables;
    const { opsUsed, opsOf } = plan;
    const own = this.kiln * span;
    const ample = steamers.ample(plan);
    if (!ample) this.withoutLoads(plan, order, () => steamers.mark(plan.loadsAt, fresh));
    let isOther = false;
    for (let i = 0; i < reach; i++) {
      const left = ops[i]! - opsUsed[i]! + opsOf[own + i]!;
      const given = (ample || fresh[i] === 1 ? STEAM : 0) | (left >= 2 ? ONE | TWO : left >= 1 ? ONE : 0);
      if (given !== day[i]) {
        day[i] = given;
        isOther = true;
      }
    }
    return isOther;
  }

  private withoutLoads({ loadsAt, start }: DayPlan, order: readonly number[], work: () => void): void {
    const steamed = order.filter((job) => this.tables.problem.jobs[job]!.steams);
    for (const job of steamed) loadsAt[start[job]!]!--;
    work();
    for (const job of steamed) loadsAt[start[job]!]!++;
  }
}

function sameOrder(a: readonly number[], b: readonly number[]): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}
