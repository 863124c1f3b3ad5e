import type { Kiln } from "@/lib/domain/booking/equipment";
import { firstAbove, firstOverlap, nextFree } from "@/lib/domain/booking/free-time";
import type { RunNeeds } from "@/lib/domain/booking/run-needs";
import { MAX_DAYS_FROM_STEAM_TO_LOAD } from "@/lib/domain/booking/run-plan";
import { nextLift, type LiftSlot, type SearchSpace } from "@/lib/domain/booking/search-space";
import { latestSteam, nextSteam, type SteamSlot } from "@/lib/domain/booking/steam-slot";
import { MS_PER_DAY, MS_PER_HOUR, MS_PER_MINUTE } from "@/lib/domain/time/interval";

/** The four parts of a run on one kiln. Times in epoch milliseconds. */
export type Slots = {
  readonly load: LiftSlot;
  readonly unload: LiftSlot;
  readonly kilnTo: number;
  readonly steam: SteamSlot | null;
};

export type Obstacle = "load" | "unload" | "kiln" | "power" | "steam" | "horizon";
export type SearchResult = { readonly slots: Slots | null; readonly lastObstacle: Obstacle | null };

export type SearchLimits = { readonly powerLimitKw: number | null; readonly steamedOutAt: number | null; readonly steamFrom: number | null };

/** Either the parts of a run whose loading starts at `t`, or what forbids it and the first start that could do. */
export type Try = { readonly slots: Slots } | { readonly obstacle: Obstacle; readonly retryAt: number };

/**
 * The earliest run whose loading starts at or after `from`. Every obstacle names the first start at
 * which it is gone, never skipping a start that would do: a later start never unloads earlier, so
 * the first start that meets no obstacle is the earliest of all.
 */
export function earliestSlots(space: SearchSpace, kiln: Kiln, needs: RunNeeds, limits: SearchLimits, from: number): SearchResult {
  let t = Math.max(from, firstLoadStart(space, needs, limits));
  let lastObstacle: Obstacle | null = null;
  const busy = space.busyOf(kiln.equipmentId);
  const least = leastHeldMs(kiln, needs);
  while (t < space.horizon) {
    // Nothing else is asked about a gap that the kiln alone forbids.
    const free = nextFree(busy, t, least);
    if (free > t) {
      [lastObstacle, t] = ["kiln", free];
      continue;
    }
    const found = trySlots(space, kiln, needs, limits, t);
    if ("slots" in found) return { slots: found.slots, lastObstacle };
    lastObstacle = found.obstacle;
    t = found.retryAt;
  }
  return { slots: null, lastObstacle };
}

/** How long the kiln is needed at the very least, from the start of its loading until it is free again. */
function leastHeldMs(kiln: Kiln, needs: RunNeeds): number {
  return (needs.load.minutes + needs.unload.minutes) * MS_PER_MINUTE + (needs.reservationHours + kiln.limits.turnaroundHours) * MS_PER_HOUR;
}

export function firstLoadStart(space: SearchSpace, needs: RunNeeds, limits: SearchLimits): number {
  if (limits.steamedOutAt === null) return space.notBefore;
  return Math.max(space.notBefore, limits.steamedOutAt + needs.gapHours * MS_PER_HOUR);
}

export function trySlots(space: SearchSpace, kiln: Kiln, needs: RunNeeds, limits: SearchLimits, t: number): Try {
  const load = nextLift(space, needs.load, t);
  if (load === null) return { obstacle: "load", retryAt: Infinity };
  if (load.start > t) return { obstacle: "load", retryAt: load.start };

  const unload = nextLift(space, needs.unload, load.end + needs.reservationHours * MS_PER_HOUR);
  if (unload === null) return { obstacle: "unload", retryAt: Infinity };
  const kilnTo = unload.end + kiln.limits.turnaroundHours * MS_PER_HOUR;
  if (kilnTo > space.horizon) return { obstacle: "horizon", retryAt: Infinity };

  // The kiln must be empty while it is loaded, although it is booked only from door closed.
  const taken = firstOverlap(space.busyOf(kiln.equipmentId), load.start, kilnTo);
  if (taken !== undefined) return { obstacle: "kiln", retryAt: taken.end };

  const tooMuch = overload(space, kiln, needs, limits, load.end);
  if (tooMuch !== undefined) return { obstacle: "power", retryAt: tooMuch - (load.end - load.start) };

  if (needs.steam === null) return { slots: { load, unload, kilnTo, steam: null } };
  const steam = trySteam(space, needs, load.start, limits.steamFrom);
  if ("retryAt" in steam) return { obstacle: "steam", retryAt: steam.retryAt };
  return { slots: { load, unload, kilnTo, steam: steam.slot } };
}

/** When the first overload ends that heating from `doorClosed` would cause; undefined when there is none. */
function overload(space: SearchSpace, kiln: Kiln, needs: RunNeeds, limits: SearchLimits, doorClosed: number): number | undefined {
  if (limits.powerLimitKw === null) return undefined;
  const heatedBy = doorClosed + needs.heatingHours * MS_PER_HOUR;
  return firstAbove(space.heating, doorClosed, heatedBy, kiln.limits.powerKw, limits.powerLimitKw)?.end;
}

/** A steam-out in time for a loading: with the drying one would like, or with the most there is; or the one that was agreed to. */
export function trySteam(space: SearchSpace, needs: RunNeeds, loadStart: number, agreed: number | null = null): { slot: SteamSlot } | { retryAt: number } {
  if (needs.steam === null) return { retryAt: Infinity };
  const earliest = Math.max(space.notBefore, loadStart - MAX_DAYS_FROM_STEAM_TO_LOAD * MS_PER_DAY);
  const gap = needs.gapHours * MS_PER_HOUR;
  if (agreed !== null) {
    const slot = agreed < earliest ? null : nextSteam(space, needs.steam, agreed);
    return slot?.start === agreed && slot.end + gap <= loadStart ? { slot } : { retryAt: Infinity };
  }
  const liked = latestSteam(space, needs.steam, earliest, loadStart - needs.likedGapHours * MS_PER_HOUR);
  if (liked !== null) return { slot: liked };
  // No slot leaves the drying time one would like: the first slot leaves the most there is.
  const first = nextSteam(space, needs.steam, earliest);
  if (first !== null && first.end + gap <= loadStart) return { slot: first };
  return { retryAt: first === null ? Infinity : first.end + gap };
}
