import { Temporal } from "temporal-polyfill";
import type { ClashState, StandingRun } from "@/lib/domain/booking/clash";
import type { Kiln } from "@/lib/domain/booking/equipment";
import { liftingOf, type KilnHours, type Lifting, type RunClock, type SeasonClock } from "@/lib/domain/settling/clash/season-clock";
import type { Season } from "@/lib/domain/settling/clash/season";
import { MS_PER_DAY, MS_PER_HOUR, MS_PER_MINUTE } from "@/lib/domain/time/interval";
import { dayNumber, startOfDay } from "@/lib/domain/time/zone-days";
import { storedPlan } from "@/lib/server/rows/casting-plan";
import type { LockedFiring } from "@/lib/server/rows/lock-firing";
import { kilnHours } from "@/lib/server/rows/days-in-kilns";
import { kilnBooking } from "@/lib/server/rows/movable-runs";

/** What a booked run takes by the clock, on its own kiln by the plan it keeps there. */
export function clockOf(run: StandingRun, firing: LockedFiring, elsewhere: Readonly<Record<string, KilnHours>>): RunClock {
  const plan = storedPlan(firing.plan.outputs);
  const kiln = kilnBooking(run);
  const { load, unload } = liftingOf(plan);
  return { load, unload, inKiln: { ...elsewhere, [run.kilnId]: kilnHours(plan) }, standing: { loading: loadingOf(run, load), unloading: unloadingOf(run, unload), free: kiln.end.epochMilliseconds } };
}

function loadingOf(run: StandingRun, { minutes }: Lifting): number {
  const starts = (run.lifts ?? []).filter(({ what }) => what === "load").map(({ start }) => start.epochMilliseconds);
  return Math.min(kilnBooking(run).start.epochMilliseconds - minutes * MS_PER_MINUTE, ...starts);
}

function unloadingOf(run: StandingRun, { minutes }: Lifting): number {
  const starts = [...(run.lifts ?? []).filter(({ what }) => what === "unload"), ...run.bookings.filter(({ purpose }) => purpose === "unload")].map(({ start }) => start.epochMilliseconds);
  return starts.length > 0 ? Math.min(...starts) : kilnBooking(run).end.epochMilliseconds - minutes * MS_PER_MINUTE;
}

/** The season's hours, with the runs that may move and those that stay. */
export function seasonClock(state: ClashState, days: Season, runs: ReadonlyMap<string, RunClock>, staying: readonly StandingRun[]): SeasonClock {
  const firstDay = dayNumber(days.today);
  const kilns = state.equipment.filter((piece): piece is Kiln => piece.kind === "kiln");
  // Nothing is settled so far ahead.
  const never = startOfDay(firstDay + days.length, days.timeZone) + 400 * MS_PER_DAY;
  return {
    hours: state.hours,
    firstDay,
    turnaroundHours: new Map(kilns.map(({ equipmentId, limits }) => [equipmentId, limits.turnaroundHours])),
    runs,
    power: state.powerLimitKw === null ? null : { limitKw: state.powerLimitKw, heating: staying.map((run) => heatingOf(run, kilns)) },
    taken: [
      ...state.outages.filter(({ equipmentId }) => kilns.some((kiln) => kiln.equipmentId === equipmentId)).map(({ equipmentId, from, to }) => ({ kilnId: equipmentId, from: from.epochMilliseconds, to: Math.min(never, to?.epochMilliseconds ?? never) })),
      ...staying.map((run) => ({ kilnId: run.kilnId, from: loadingOf(run, { minutes: 0, hands: 1 }), to: heldUntil(run).epochMilliseconds })),
    ],
  };
}

function heatingOf(run: StandingRun, kilns: readonly Kiln[]) {
  const from = kilnBooking(run).start.epochMilliseconds;
  return { from, to: from + run.heatingHours * MS_PER_HOUR, kw: kilns.find(({ equipmentId }) => equipmentId === run.kilnId)?.limits.powerKw ?? 0 };
}

/** What is expected to be cool later than booked is still to be unloaded then, and the kiln made ready. */
const AFTER_COOLING = { hours: 4 };

/** Until when a run that does not move has its kiln: the later of booked and expected. */
export function heldUntil(run: StandingRun): Temporal.Instant {
  const { end } = kilnBooking(run);
  return run.expectedEnd !== null && Temporal.Instant.compare(run.expectedEnd, end) > 0 ? run.expectedEnd.add(AFTER_COOLING) : end;
}
