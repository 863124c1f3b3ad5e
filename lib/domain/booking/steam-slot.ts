import { firstOverlap, type Span } from "@/lib/domain/booking/free-time";
import { STEAMER_LIFT_MINUTES } from "@/lib/domain/booking/run-plan";
import { nextLift, startOfLocalDay, type SearchSpace } from "@/lib/domain/booking/search-space";
import { ceilToGrid } from "@/lib/domain/time/grid";
import { MS_PER_HOUR, MS_PER_MINUTE } from "@/lib/domain/time/interval";
import { localDay } from "@/lib/domain/time/zone-days";
import type { Steamer } from "@/lib/domain/booking/equipment";
import type { WorkshopHours } from "@/lib/domain/time/staffed-hours";

/** What a steam-out needs: people put the mould in at the start and lift it out at the end. */
export type SteamNeed = {
  readonly hours: number;
  /** At both ends the same number: the larger of what putting in and lifting out take. */
  readonly hands: number;
  /** Those that take the mould, in the order they are tried. */
  readonly steamers: readonly Steamer[];
  /** Only for a steam-out longer than any staffed day; all others end on the day they start. */
  readonly overnight: boolean;
};
export type SteamSlot = Span & { readonly steamerId: string };

/**
 * The first slot that starts at or after `t`: in by staffed hands, steaming for the hours needed,
 * out by staffed hands as soon after that as somebody is there. A slot that starts later never ends
 * earlier, which the search for a whole run relies on.
 */
export function nextSteam(space: SearchSpace, need: SteamNeed, t: number): SteamSlot | null {
  const lift = STEAMER_LIFT_MINUTES * MS_PER_MINUTE;
  let from = t;
  for (;;) {
    const put = nextLift(space, { minutes: STEAMER_LIFT_MINUTES, hands: need.hands, trolleys: [] }, from);
    if (put === null) return null;
    const done = put.start + need.hours * MS_PER_HOUR;
    const taken = nextLift(space, { minutes: STEAMER_LIFT_MINUTES, hands: need.hands, trolleys: [] }, ceilToGrid(done, space.timeZone) - lift);
    if (taken === null) return null;
    if (!need.overnight && !sameDay(put.start, taken.end, space.timeZone)) {
      from = startOfLocalDay(put.start, space.timeZone, 1);
      continue;
    }
    const steamer = freeSteamer(space, need.steamers, put.start, taken.end);
    if (steamer.from <= put.start) return { start: put.start, end: taken.end, steamerId: steamer.steamerId };
    if (steamer.from === Infinity) return null;
    from = steamer.from;
  }
}

/** The day of an end belongs to its last instant, so a slot may end at midnight. */
function sameDay(start: number, end: number, timeZone: string): boolean {
  return localDay(start, timeZone) === localDay(end - 1, timeZone);
}

function freeSteamer(space: SearchSpace, steamers: readonly Steamer[], start: number, end: number): { from: number; steamerId: string } {
  let best = { from: Infinity, steamerId: "" };
  for (const steamer of steamers) {
    const taken = firstOverlap(space.busyOf(steamer.equipmentId), start, end);
    const from = taken === undefined ? start : taken.end;
    if (from < best.from) best = { from, steamerId: steamer.equipmentId };
    if (from <= start) break;
  }
  return best;
}

/**
 * Of all slots between two instants, one on the latest local day that has one: a mould that waits
 * less is knocked less. Null when the first slot at or after `earliest` ends too late already.
 */
export function latestSteam(space: SearchSpace, need: SteamNeed, earliest: number, endBy: number): SteamSlot | null {
  const first = nextSteam(space, need, earliest);
  if (first === null || first.end > endBy) return null;
  for (let daysBack = 0; ; daysBack++) {
    const dayStart = startOfLocalDay(endBy, space.timeZone, -daysBack);
    if (dayStart <= first.start) return first;
    const slot = nextSteam(space, need, dayStart);
    if (slot !== null && slot.end <= endBy) return slot;
  }
}

/** From the first opening to the last closing of the longest day of the week, in hours. */
export function longestStaffedDayHours(hours: WorkshopHours): number {
  const spans = [1, 2, 3, 4, 5, 6, 7].map((weekday) => {
    const day = hours.weekly.filter((entry) => entry.weekday === weekday);
    if (day.length === 0) return 0;
    return Math.max(...day.map((entry) => entry.closesMin)) - Math.min(...day.map((entry) => entry.opensMin));
  });
  return Math.max(...spans) / 60;
}
