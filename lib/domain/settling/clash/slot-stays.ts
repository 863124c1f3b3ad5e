import type { DaySlots } from "@/lib/domain/settling/clash/day-slots";
import type { KilnHours, Lifting, RunClock } from "@/lib/domain/settling/clash/season-clock";
import { SlotPower } from "@/lib/domain/settling/clash/slot-power";
import type { Stays } from "@/lib/domain/settling/days/day-problem";
import { MS_PER_DAY, MS_PER_HOUR } from "@/lib/domain/time/interval";

/**
 * How what happens within a slot is rounded: for a plan to be carried out, every load begins where its slot does or as
 * soon after that as it can, and the kiln waits for the next slot; for a bound, a load may begin anywhere in its slot,
 * and what follows is where it would be after the earliest of them.
 */
export type Rounding = "plan" | "bound";

export type StayNeeds = { readonly load: Lifting; readonly unload: Lifting; readonly inKiln: KilnHours; readonly turnaround: number };

/** What follows from a load in each slot, and the least time the kiln is held, milliseconds. */
export type SlotStays = Stays & { readonly leastHeldMs: number };

/** From every slot, by the rules a run is placed by, were nobody else there. A plan has it unloaded before day `closes`. */
export function staysFrom(slots: DaySlots, { load, unload, inKiln, turnaround }: StayNeeds, rounding: Rounding, closes: number): SlotStays {
  const power = new SlotPower(slots, rounding);
  const free = new Int16Array(slots.count).fill(-1);
  const unloaded = new Int16Array(slots.count).fill(-1);
  const heats = new Int16Array(slots.count);
  let leastHeldMs = Infinity;
  for (let slot = 0; slot < slots.count; slot++) {
    const loading = slots.liftIn(slot, load);
    const out = loading === null ? null : slots.liftFrom(unload, loading.end + inKiln.cools * MS_PER_HOUR);
    if (loading === null || out === null) continue;
    const again = out.end + turnaround * MS_PER_HOUR;
    const outIn = slots.slotOf(out.start);
    if (rounding === "bound") free[slot] = Math.min(slots.last, slots.reachedBy(again));
    else {
      const next = slots.beginningFrom(again);
      if (next >= slots.count || outIn >= closes * slots.perDay) continue;
      free[slot] = Math.max(next, slot + 1);
    }
    unloaded[slot] = outIn;
    heats[slot] = power.heats(slot, loading.end, inKiln.heats);
    leastHeldMs = Math.min(leastHeldMs, again - loading.start);
  }
  return { free, unloaded, heats, leastHeldMs };
}

/**
 * The same for the kiln a run stands on, where it stays as long as it is booked. Later starts are never free sooner: in
 * a plan they wait for what is booked, in a bound what is booked counts as over by then.
 * @param next in a plan, where what stands after it on its kiln begins: the two stand within one slot, so they can
 */
export function withStanding(slots: DaySlots, stays: SlotStays, { loading, unloading, free: until }: NonNullable<RunClock["standing"]>, rounding: Rounding, next: number): SlotStays {
  const [free, unloaded] = [stays.free.slice(), stays.unloaded.slice()];
  const own = slots.slotOf(loading);
  const dayStart = own - (own % slots.perDay);
  // On its own day it is not moved to another hour: that would be no move to anybody.
  if (rounding === "plan") for (let slot = dayStart; slot < dayStart + slots.perDay; slot++) free[slot] = unloaded[slot] = -1;
  free[own] = Math.min(slots.last, rounding === "bound" ? slots.reachedBy(until) : Math.max(own + 1, Math.min(next, slots.beginningFrom(until))));
  unloaded[own] = slots.slotOf(unloading);
  for (const sums of [free, unloaded]) (rounding === "plan" ? riseFrom : fallTo)(sums, own);
  return { free, unloaded, heats: stays.heats, leastHeldMs: Math.min(stays.leastHeldMs, until - loading) };
}

/** Nothing after `own` is less than what is there. */
function riseFrom(values: Int16Array, own: number): void {
  for (let at = own + 1; at < values.length; at++) if (values[at]! >= 0) values[at] = Math.max(values[at]!, values[own]!);
}

/** Nothing before something later is more than that. */
function fallTo(values: Int16Array): void {
  let least = Infinity;
  for (let at = values.length - 1; at >= 0; at--) if (values[at]! >= 0) values[at] = least = Math.min(least, values[at]!);
}

/** A kiln that is held for less than this could be loaded twice within one slot, and slots would say nothing. */
export const LEAST_HELD_MS = MS_PER_DAY;
