import { Temporal } from "temporal-polyfill";
import type { Trolley } from "@/lib/domain/booking/equipment";
import { nextFree, nextWithin, firstEndingAfter, sortedSpans, stepsOf, type Span, type SortedSpans, type Step } from "@/lib/domain/booking/free-time";
import type { RunQuestion } from "@/lib/domain/booking/run-question";
import { ceilToGrid } from "@/lib/domain/time/grid";
import { MS_PER_MINUTE } from "@/lib/domain/time/interval";
import { staffedWindows } from "@/lib/domain/time/staffed-hours";

type Window = Span & { readonly hands: number };

/** A question, sorted once so that every look-up is a bisection. Times in epoch milliseconds. */
export type SearchSpace = {
  readonly timeZone: string;
  readonly windows: readonly Window[];
  readonly mostHands: number;
  readonly handsTaken: readonly Step[];
  readonly heating: readonly Step[];
  readonly busyOf: (equipmentId: string) => SortedSpans;
  readonly notBefore: number;
  readonly horizon: number;
};

export function searchSpace(question: RunQuestion): SearchSpace {
  const windows = [...staffedWindows(question.hours, question.notBefore, question.horizon)].map((window) => ({
    ...spanOf(window),
    hands: window.hands,
  }));
  const byEquipment = new Map<string, Span[]>();
  for (const busy of question.busy) {
    const spans = byEquipment.get(busy.equipmentId) ?? [];
    spans.push(spanOf({ start: busy.loadingFrom ?? busy.start, end: busy.end }));
    byEquipment.set(busy.equipmentId, spans);
  }
  const sorted = new Map([...byEquipment].map(([id, spans]) => [id, sortedSpans(spans)]));
  return {
    timeZone: question.hours.timeZone,
    windows,
    mostHands: windows.reduce((most, window) => Math.max(most, window.hands), 0),
    handsTaken: stepsOf(question.lifts.map((lift) => ({ ...spanOf(lift), amount: lift.hands }))),
    heating: stepsOf(question.heating.map((heating) => ({ ...spanOf(heating), amount: heating.kw }))),
    busyOf: (equipmentId) => sorted.get(equipmentId) ?? [],
    notBefore: question.notBefore.epochMilliseconds,
    horizon: question.horizon.epochMilliseconds,
  };
}

export function spanOf(interval: { readonly start: Temporal.Instant; readonly end: Temporal.Instant }): Span {
  return { start: interval.start.epochMilliseconds, end: interval.end.epochMilliseconds };
}

/** What one movement needs. An empty list of trolleys means that it is done without one. */
export type LiftNeed = { readonly minutes: number; readonly hands: number; readonly trolleys: readonly Trolley[] };
export type LiftSlot = Span & { readonly trolleyId: string | null };

/**
 * The first quarter hour at or after `t` at which a lift fits wholly into one staffed window, with
 * hands to spare and a trolley free; null when there is none before the horizon.
 */
export function nextLift(space: SearchSpace, need: LiftNeed, t: number): LiftSlot | null {
  const length = need.minutes * MS_PER_MINUTE;
  for (let i = firstEndingAfter(space.windows, t); i < space.windows.length; i++) {
    const window = space.windows[i];
    if (window === undefined || window.hands < need.hands) continue;
    const slot = liftWithin(space, need, length, window, Math.max(t, window.start));
    if (slot !== null) return slot;
  }
  return null;
}

function liftWithin(space: SearchSpace, need: LiftNeed, length: number, window: Window, from: number): LiftSlot | null {
  let start = ceilToGrid(from, space.timeZone);
  while (start + length <= window.end) {
    const handsFrom = nextWithin(space.handsTaken, start, length, need.hands, window.hands);
    const trolley = soonestTrolley(space, need.trolleys, start, length);
    const next = Math.max(handsFrom, trolley.from);
    if (next <= start) return { start, end: start + length, trolleyId: trolley.trolleyId };
    start = ceilToGrid(next, space.timeZone);
  }
  return null;
}

/** Trolleys are tried in the order given, so that equal choices always fall the same way. */
function soonestTrolley(space: SearchSpace, trolleys: readonly Trolley[], start: number, length: number): { from: number; trolleyId: string | null } {
  if (trolleys.length === 0) return { from: start, trolleyId: null };
  let best: { from: number; trolleyId: string | null } = { from: Infinity, trolleyId: null };
  for (const trolley of trolleys) {
    const from = nextFree(space.busyOf(trolley.equipmentId), start, length);
    if (from < best.from) best = { from, trolleyId: trolley.equipmentId };
  }
  return best;
}

export function localDate(epochMs: number, timeZone: string): Temporal.PlainDate {
  // Drying times come out of a calculation and end between two milliseconds.
  return Temporal.Instant.fromEpochMilliseconds(Math.floor(epochMs)).toZonedDateTimeISO(timeZone).toPlainDate();
}

/** The first instant of a local day, counted from the day an instant falls on. */
export function startOfLocalDay(epochMs: number, timeZone: string, daysLater: number): number {
  return localDate(epochMs, timeZone).add({ days: daysLater }).toZonedDateTime(timeZone).epochMilliseconds;
}
