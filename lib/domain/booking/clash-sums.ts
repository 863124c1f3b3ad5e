import { Temporal } from "temporal-polyfill";
import type { Clash, ClashState, StandingBooking, StandingLift, StandingRun } from "@/lib/domain/booking/clash";
import { clashOf, equipmentName, firingName, kilnBooking, listed, staysText } from "@/lib/domain/booking/clash-names";
import { isAbove, type Span } from "@/lib/domain/booking/free-time";
import { STEAMER_LIFT_MINUTES } from "@/lib/domain/booking/run-plan";
import { fewestHands, hoursTable } from "@/lib/domain/time/hours-table";
import { MS_PER_HOUR, MS_PER_MINUTE, type Interval } from "@/lib/domain/time/interval";
import { showInterval } from "@/lib/domain/time/show-time";

/** Something a firing takes for a while: people, or kilowatts. */
type Part = Span & { readonly amount: number; readonly id: string; readonly run: StandingRun; readonly equipmentId: string };
/** `peak` and `limit` are those of the instant at which the sum is furthest above its limit. */
type Stretch = { start: number; end: number; parts: Part[]; peak: number; limit: number };

/** Lifts that overlap and need more hands than are on duty, or that happen when nobody is. */
export function thinCrewClashes(state: ClashState): readonly Clash[] {
  const parts = state.runs.flatMap((run) => (run.lifts === undefined ? run.bookings.flatMap((booking) => liftsOf(run, booking)) : plannedLiftsOf(run, run.lifts)));
  const table = hoursTable(state.hours);
  return stretchesAbove(parts, (span) => fewestHands(table, state.hours.timeZone, { start: Math.floor(span.start), end: Math.ceil(span.end) })).map((stretch) => {
    const runs = runsOf(stretch);
    const interval = intervalOf(stretch);
    const duty = stretch.limit === 0 ? "nobody is on duty" : `${stretch.limit} ${stretch.limit === 1 ? "is" : "are"} on duty`;
    return clashOf("thin-crew", idsOf(stretch), interval, runs, {
      equipmentIds: equipmentOf(stretch),
      askIds: [],
      sentence: `Lifts of ${listed(runs.map(firingName))} need ${stretch.peak} ${stretch.peak === 1 ? "person" : "people"} and ${duty}: ${showInterval(interval, state.hours.timeZone)}.`,
    });
  });
}

/** Kilns that heat together above the electrician's limit, each counted with its full rating. */
export function overloadClashes(state: ClashState): readonly Clash[] {
  const { powerLimitKw } = state;
  if (powerLimitKw === null) return [];
  const parts = state.runs.flatMap((run) => heatingOf(state, run));
  return stretchesAbove(parts, () => powerLimitKw).map((stretch) => {
    const runs = runsOf(stretch);
    const interval = intervalOf(stretch);
    const names = equipmentOf(stretch).map((id) => equipmentName(state, id));
    return clashOf("overload", runs.map((run) => run.firingId).sort(), interval, runs, {
      equipmentIds: equipmentOf(stretch),
      askIds: [],
      sentence: `${listed(names)} heating ${names.length > 1 ? "together " : ""}may draw ${round(stretch.peak)} kW, above the electrician's limit of ${round(powerLimitKw)} kW: ${showInterval(interval, state.hours.timeZone)} (${listed(runs.map(firingName))}).${staysText(runs)}`,
    });
  });
}

function plannedLiftsOf(run: StandingRun, lifts: readonly StandingLift[]): Part[] {
  return lifts.map((lift) => ({
    id: `${run.firingId}/${lift.what}`,
    start: lift.start.epochMilliseconds,
    end: lift.end.epochMilliseconds,
    amount: lift.hands,
    run,
    equipmentId: lift.trolleyId ?? run.kilnId,
  }));
}

/** Loading and unloading take people throughout; a steam-out when the mould goes in and when it comes out. */
function liftsOf(run: StandingRun, booking: StandingBooking): Part[] {
  const span = { start: booking.start.epochMilliseconds, end: booking.end.epochMilliseconds };
  const part = (id: string, start: number, end: number): Part => ({ id, start, end, amount: booking.hands, run, equipmentId: booking.equipmentId });
  if (!(booking.hands > 0) || booking.purpose === "kiln") return [];
  if (booking.purpose !== "steam-out") return [part(booking.bookingId, span.start, span.end)];
  const length = STEAMER_LIFT_MINUTES * MS_PER_MINUTE;
  return [part(`${booking.bookingId}/in`, span.start, span.start + length), part(`${booking.bookingId}/out`, span.end - length, span.end)];
}

function heatingOf(state: ClashState, run: StandingRun): Part[] {
  const booking = kilnBooking(run);
  const kiln = state.equipment.find((item) => item.equipmentId === booking?.equipmentId);
  if (booking === undefined || kiln?.kind !== "kiln") return [];
  const start = booking.start.epochMilliseconds;
  return [{ id: run.firingId, start, end: start + Math.round(run.heatingHours * MS_PER_HOUR), amount: kiln.limits.powerKw, run, equipmentId: kiln.equipmentId }];
}

/**
 * Sweeps from change to change and keeps the stretches in which the sum is above its limit.
 * Neighbouring stretches become one only when a part takes place in both, so that two troubles
 * which merely touch stay two.
 */
function stretchesAbove(parts: readonly Part[], limitOf: (span: Span) => number): Stretch[] {
  const sorted = parts.filter((part) => part.start < part.end).sort((a, b) => a.start - b.start || (a.id < b.id ? -1 : 1));
  const times = [...new Set(sorted.flatMap((part) => [part.start, part.end]))].sort((a, b) => a - b);
  const stretches: Stretch[] = [];
  let active: Part[] = [];
  let next = 0;
  times.slice(0, -1).forEach((start, i) => {
    const end = times[i + 1] ?? start;
    active = active.filter((part) => part.end > start);
    for (let part = sorted[next]; part !== undefined && part.start <= start; part = sorted[++next]) active.push(part);
    if (active.length === 0) return;
    const sum = active.reduce((total, part) => total + part.amount, 0);
    const limit = limitOf({ start, end });
    if (isAbove(sum, limit)) addStretch(stretches, { start, end, parts: [...active], peak: sum, limit });
  });
  return stretches;
}

function addStretch(stretches: Stretch[], found: Stretch): void {
  const last = stretches.at(-1);
  const goesOn = last !== undefined && last.end === found.start && last.parts.some((part) => found.parts.includes(part));
  if (!goesOn) {
    stretches.push(found);
    return;
  }
  last.end = found.end;
  last.parts.push(...found.parts.filter((part) => !last.parts.includes(part)));
  if (found.peak - found.limit > last.peak - last.limit) {
    last.peak = found.peak;
    last.limit = found.limit;
  }
}

function runsOf(stretch: Stretch): StandingRun[] {
  return [...new Set(stretch.parts.map((part) => part.run))];
}

function idsOf(stretch: Stretch): string[] {
  return stretch.parts.map((part) => part.id).sort();
}

function equipmentOf(stretch: Stretch): string[] {
  return [...new Set(stretch.parts.map((part) => part.equipmentId))];
}

function intervalOf(span: Span): Interval {
  return { start: Temporal.Instant.fromEpochMilliseconds(Math.floor(span.start)), end: Temporal.Instant.fromEpochMilliseconds(Math.ceil(span.end)) };
}

function round(kw: number): number {
  return Math.round(kw * 10) / 10;
}
