import type { DayTables } from "@/lib/domain/settling/days/day-tables";

/** How many loads that are steamed there are by index; the version rises with every change. */
export type Loads = { readonly loadsAt: Int16Array; readonly version: number };

/**
 * Steamer places. A load at index s needs a place on an index of [steamFrom[s], s − 1]. Both ends of
 * that window move on with s, so the places suffice exactly when for every stretch of days the loads
 * whose windows lie inside it are no more than its places (P. Hall's condition); and giving places in
 * the order of the loads, the earliest free one each, finds them.
 */
export class SteamerRoom {
  private readonly places: Int32Array;
  private readonly loads: Int32Array;
  private readonly tail: Int32Array;
  private readonly open: Uint8Array;
  private seen = -1;
  private isAmple = false;

  constructor(private readonly tables: DayTables) {
    this.places = new Int32Array(tables.span + 1);
    for (let i = 0; i < tables.span; i++) this.places[i + 1] = this.places[i]! + tables.steams[i]!;
    this.loads = new Int32Array(tables.span + 1);
    this.tail = new Int32Array(tables.span + 2);
    this.open = new Uint8Array(tables.span);
  }

  /** True when one more load finds a place wherever it could at all; most of the time there is no more to know. */
  ample(plan: Loads): boolean {
    if (plan.version === this.seen) return this.isAmple;
    this.seen = plan.version;
    this.mark(plan.loadsAt, this.open);
    this.isAmple = this.open.every((isOpen) => isOpen === 1);
    return this.isAmple;
  }

  /** By start, 1 where one more load still finds a place. */
  openFor(plan: Loads): Uint8Array {
    this.ample(plan);
    return this.open;
  }

  /** Marks with 1 every start at which one more load still finds a place among the others; `loadsAt` counts those there are. */
  mark(loadsAt: Int16Array, open: Uint8Array): void {
    const { span, steamFrom } = this.tables;
    this.sum(loadsAt);
    const { tail } = this;
    // tail[s]: the least, over stretches that end at s − 1 or later, of places up to the end less loads served by then.
    tail[span] = this.places[span]! - this.loads[span]!;
    for (let s = span - 1; s >= 0; s--) tail[s] = Math.min(tail[s + 1]!, this.places[s]! - this.loads[s + 1]!);
    let most = 0;
    let from = 0;
    // most: the largest, over stretches that begin at `from` or before, of places before it less loads served before.
    let loadsBefore = 0;
    for (let s = 0; s < span; s++) {
      const begin = steamFrom[s]!;
      while (from <= begin) {
        while (loadsBefore < span && steamFrom[loadsBefore]! < from) loadsBefore++;
        const before = this.places[from]! - this.loads[loadsBefore]!;
        most = from === 0 ? before : Math.max(most, before);
        from++;
      }
      open[s] = tail[s]! - most >= 1 ? 1 : 0;
    }
  }

  /** True when every load counted in `loadsAt` finds a place. */
  suffices(loadsAt: Int16Array): boolean {
    const { span, steamFrom, steams } = this.tables;
    let day = 0;
    let left = span > 0 ? steams[0]! : 0;
    for (let s = 0; s < span; s++) {
      for (let load = loadsAt[s]!; load > 0; load--) {
        if (day < steamFrom[s]!) {
          day = steamFrom[s]!;
          left = steams[day]!;
        }
        while (left === 0 && day < s) left = steams[++day]!;
        if (day >= s) return false;
        left--;
      }
    }
    return true;
  }

  private sum(loadsAt: Int16Array): void {
    for (let i = 0; i < this.tables.span; i++) this.loads[i + 1] = this.loads[i]! + loadsAt[i]!;
  }
}

/**
 * The steamer day of every load, as late before loading as the others allow; −1 for what is not
 * steamed. `starts` are indexes; loads beyond the places there are get −1 too, which the check of
 * the whole plan reports.
 */
export function steamerDays(tables: DayTables, starts: readonly number[], steams: readonly boolean[]): number[] {
  const { steamFrom, dayOf } = tables;
  const left = Int16Array.from(tables.steams);
  const days = starts.map(() => -1);
  const order = starts.map((_, i) => i).filter((i) => steams[i] === true).sort((a, b) => starts[b]! - starts[a]!);
  let day = tables.span;
  for (const i of order) {
    day = Math.min(day, starts[i]! - 1);
    while (day >= 0 && left[day] === 0) day--;
    if (day < 0 || day < steamFrom[starts[i]!]!) continue;
    left[day]!--;
    days[i] = dayOf[day]!;
  }
  return days;
}
