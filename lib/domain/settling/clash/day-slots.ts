import { LOAD_MINUTES } from "@/lib/domain/booking/run-plan";
import { nextLift, type LiftSlot } from "@/lib/domain/booking/search-space";
import { MS_PER_MINUTE } from "@/lib/domain/time/interval";
import { startOfDay } from "@/lib/domain/time/zone-days";
import { emptySpace, liftNeed, type Lifting, type SeasonClock } from "@/lib/domain/settling/clash/season-clock";

/** The shortest lift there is. */
const SHORTEST: Lifting = { minutes: LOAD_MINUTES, hands: 1 };

/** The staffed part of each day in equal parts, numbered day × perDay + part; a day on which nobody comes has numbers but no hours. */
export class DaySlots {
  readonly count: number;
  /** The last slot with hours. */
  readonly last: number;
  /** By slot, epoch milliseconds; NaN without hours. */
  readonly start: Float64Array;
  /** People on duty at most; 0 without hours. */
  readonly hands: number[];
  /** By slot, with hours or without: when it begins, and what is counted by the instant is looked at: when all that was loaded before has its door closed. */
  readonly from: Float64Array;
  readonly looks: Float64Array;
  private readonly end: Float64Array;
  private readonly space;

  constructor(clock: SeasonClock, days: number, readonly perDay: number) {
    const longest = Math.max(0, ...[...clock.runs.values()].map(({ load }) => load.minutes));
    this.count = days * perDay;
    this.space = emptySpace(clock, days);
    this.start = new Float64Array(this.count).fill(NaN);
    this.end = new Float64Array(this.count).fill(NaN);
    this.hands = new Array<number>(this.count).fill(0);
    this.from = new Float64Array(this.count);
    for (let day = 0; day < days; day++) {
      const begins = startOfDay(clock.firstDay + day, clock.hours.timeZone);
      const length = startOfDay(clock.firstDay + day + 1, clock.hours.timeZone) - begins;
      for (let part = 0; part < perDay; part++) this.from[day * perDay + part] = begins + (part * length) / perDay;
      const windows = this.space.windowsOn(clock.firstDay + day);
      const [opens, closes] = [windows[0]?.start ?? NaN, windows.at(-1)?.end ?? NaN];
      for (let part = 0; part < perDay && windows.length > 0; part++) {
        const at = day * perDay + part;
        const from = (this.from[at] = this.start[at] = opens + (part * (closes - opens)) / perDay);
        const to = (this.end[at] = opens + ((part + 1) * (closes - opens)) / perDay);
        this.hands[at] = windows.reduce((most, { start, end, hands }) => (start < to && end > from ? Math.max(most, hands) : most), 0);
      }
    }
    this.looks = this.from.map((t) => t + longest * MS_PER_MINUTE);
    this.last = Math.max(0, this.hands.findLastIndex((hands) => hands > 0));
  }

  /** The first lift at or after an instant, were nobody else there. */
  liftFrom(lifting: Lifting, t: number): LiftSlot | null {
    return nextLift(this.space, liftNeed(lifting), t);
  }

  /** The first lift that begins within a slot. */
  liftIn(slot: number, lifting: Lifting): LiftSlot | null {
    if (!(this.hands[slot]! >= lifting.hands)) return null;
    const lift = this.liftFrom(lifting, this.start[slot]!);
    return lift !== null && lift.start < this.end[slot]! ? lift : null;
  }

  /** The slot in which the first lift of any kind at or after an instant begins: whatever is loaded after it is loaded in that slot or later. */
  reachedBy(t: number): number {
    const lift = this.liftFrom(SHORTEST, t);
    return lift === null ? this.count : this.slotOf(lift.start);
  }

  /** The first slot that begins at or after an instant. */
  beginningFrom(t: number): number {
    let slot = this.slotOf(t);
    while (slot < this.count && !(this.start[slot]! >= t)) slot++;
    return slot;
  }

  /** The slot an instant lies in, or the last one before it; 0 before all. */
  slotOf(t: number): number {
    let low = 0;
    let high = this.count;
    while (low < high) {
      const middle = (low + high) >>> 1;
      if (this.startBefore(middle) <= t) low = middle + 1;
      else high = middle;
    }
    let slot = Math.max(0, low - 1);
    while (slot > 0 && Number.isNaN(this.start[slot]!)) slot--;
    return slot;
  }

  /** A slot without hours counts as beginning when the last one before it did. */
  private startBefore(slot: number): number {
    for (let at = slot; at >= 0; at--) if (!Number.isNaN(this.start[at]!)) return this.start[at]!;
    return -Infinity;
  }
}
