import type { DaySlots } from "@/lib/domain/settling/clash/day-slots";
import type { SeasonClock } from "@/lib/domain/settling/clash/season-clock";
import type { Rounding } from "@/lib/domain/settling/clash/slot-stays";
import { MS_PER_HOUR } from "@/lib/domain/time/interval";

/**
 * Power by slot. A plan counts what heats at any moment of a slot. A bound looks at one instant for each slot, its next
 * one's `looks`, and counts only what surely heats then, wherever in its slot it was loaded: the limit holds at every
 * instant, so it does at those.
 */
export class SlotPower {
  constructor(private readonly slots: DaySlots, private readonly rounding: Rounding) {}

  /** For how many slots from its own on a run counts whose door closes at `closed` if it is loaded as early in its slot as it can be. */
  heats(slot: number, closed: number, hours: number): number {
    const { slots, rounding } = this;
    const until = closed + hours * MS_PER_HOUR;
    const [edges, own] = rounding === "plan" ? [slots.from, slot] : [slots.looks, slot + 1];
    let next = slot + 1;
    while (next < slots.count && edges[next]! < until) next++;
    return next - own;
  }

  /** Kilowatts left by what does not move; null without a limit. */
  left({ power }: SeasonClock): number[] | null {
    if (power === null) return null;
    const { from, looks, count } = this.slots;
    return Array.from({ length: count }, (_, slot) => {
      const [start, end] = this.rounding === "plan" ? [from[slot]!, from[slot + 1] ?? Infinity] : [looks[slot + 1] ?? Infinity, looks[slot + 1] ?? Infinity];
      const drawn = power.heating.reduce((sum, one) => ((this.rounding === "plan" ? one.from < end && one.to > start : one.from <= start && start < one.to) ? sum + one.kw : sum), 0);
      return Math.max(0, power.limitKw - drawn);
    });
  }
}
