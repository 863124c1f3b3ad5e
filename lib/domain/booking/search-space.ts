import type { Trolley } from "@/lib/domain/booking/equipment";
import { nextFree, nextWithin, sortedSpans, stepsOf, type Span, type SortedSpans, type Step } from "@/lib/domain/booking/free-time";
import type { RunQuestion } from "@/lib/domain/booking/run-question";
import { handsWithin, longestOf, NO_STEPS, spansIn, stepList, stepsIn, type SpanList, type StepList } from "@/lib/domain/booking/taken-calendar";
import { ceilToGrid } from "@/lib/domain/time/grid";
import { hoursTable, type Window } from "@/lib/domain/time/hours-table";
import { MS_PER_MINUTE } from "@/lib/domain/time/interval";
import { localDay, startOfDay } from "@/lib/domain/time/zone-days";
import type { Temporal } from "temporal-polyfill";

/** A question in which every look-up is a bisection, and nothing is worked out before it is looked up. Epoch milliseconds. */
export type SearchSpace = {
  readonly timeZone: string;
  /** The staffed windows of a local day, cut to what may be planned. */
  readonly windowsOn: (day: number) => readonly Window[];
  /** The hands that lifts take within one of those windows. */
  readonly handsTaken: (window: Window) => readonly Step[];
  readonly heating: readonly Step[];
  readonly busyOf: (equipmentId: string) => SortedSpans;
  readonly notBefore: number;
  readonly horizon: number;
};

export function searchSpace(question: RunQuestion): SearchSpace {
  const notBefore = question.notBefore.epochMilliseconds;
  const horizon = question.horizon.epochMilliseconds;
  return {
    timeZone: question.hours.timeZone,
    windowsOn: windowsWithin(question, notBefore, horizon),
    handsTaken: handsIn(liftsOf(question)),
    heating: heatingOf(question),
    busyOf: busySpans(question),
    notBefore,
    horizon,
  };
}

function windowsWithin({ hours }: RunQuestion, notBefore: number, horizon: number): SearchSpace["windowsOn"] {
  const table = hoursTable(hours);
  return once((day: number) =>
    table(day)
      .map((window) => ({ start: Math.max(window.start, notBefore), end: Math.min(window.end, horizon), hands: window.hands }))
      .filter((window) => window.start < window.end),
  );
}

function liftsOf({ calendar, lifts }: RunQuestion): StepList {
  const own = lifts.map((lift) => ({ ...spanOf(lift), amount: lift.hands }));
  if (calendar === undefined) return stepList(own);
  return own.length === 0 ? calendar.lifts : stepList([...stepsIn(calendar.lifts), ...own]);
}

/** Of one list, again and again the same while a calendar stays. */
const handsIn = onceEach((lifts: StepList): SearchSpace["handsTaken"] => {
  const longest = longestOf(lifts);
  const made = new Map<number, { readonly end: number; readonly steps: readonly Step[] }>();
  return ({ start, end }) => {
    const known = made.get(start);
    if (known?.end === end) return known.steps;
    const steps = handsWithin(lifts, longest, { start, end });
    made.set(start, { end, steps });
    return steps;
  };
});
const sortedIn = onceEach((list: SpanList): SortedSpans => sortedSpans(spansIn(list)));
const heatingIn = onceEach((list: StepList): readonly Step[] => stepsOf(stepsIn(list)));

function heatingOf({ calendar, heating }: RunQuestion): readonly Step[] {
  const taken = calendar?.heating ?? NO_STEPS;
  return heating.length === 0 ? heatingIn(taken) : stepsOf([...stepsIn(taken), ...heating.map((one) => ({ ...spanOf(one), amount: one.kw }))]);
}

function busySpans({ calendar, busy }: RunQuestion): SearchSpace["busyOf"] {
  const own = new Map<string, Span[]>();
  for (const one of busy) {
    const spans = own.get(one.equipmentId) ?? [];
    spans.push(spanOf({ start: one.loadingFrom ?? one.start, end: one.end }));
    own.set(one.equipmentId, spans);
  }
  return once((equipmentId: string) => {
    const [first, ...others] = calendar?.busy.get(equipmentId) ?? [];
    const more = [...others.flatMap(spansIn), ...(own.get(equipmentId) ?? [])];
    const sorted = first === undefined ? [] : sortedIn(first);
    return more.length === 0 ? sorted : sortedSpans([...sorted, ...more]);
  });
}

/** Works each answer out once for as long as what it is asked about is kept somewhere. */
function onceEach<K extends object, V>(make: (key: K) => V): (key: K) => V {
  const made = new WeakMap<K, { readonly value: V }>();
  return (key) => {
    const known = made.get(key) ?? { value: make(key) };
    made.set(key, known);
    return known.value;
  };
}

/** Works each answer out when it is first asked for. */
function once<K, V>(make: (key: K) => V): (key: K) => V {
  const made = new Map<K, V>();
  return (key) => {
    const known = made.get(key);
    if (known !== undefined) return known;
    const value = make(key);
    made.set(key, value);
    return value;
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
  const last = localDay(space.horizon, space.timeZone);
  for (let day = localDay(Math.max(t, space.notBefore), space.timeZone); day <= last; day++) {
    for (const window of space.windowsOn(day)) {
      if (window.end <= t || window.hands < need.hands) continue;
      const slot = liftWithin(space, need, length, window, Math.max(t, window.start));
      if (slot !== null) return slot;
    }
  }
  return null;
}

/** The staffed window that an instant lies in or before, on its own day or later; undefined when none follows. */
export function windowAfter(space: SearchSpace, t: number): Window | undefined {
  const last = localDay(space.horizon, space.timeZone);
  for (let day = localDay(Math.max(t, space.notBefore), space.timeZone); day <= last; day++) {
    const window = space.windowsOn(day).find(({ end }) => end > t);
    if (window !== undefined) return window;
  }
  return undefined;
}

function liftWithin(space: SearchSpace, need: LiftNeed, length: number, window: Window, from: number): LiftSlot | null {
  let start = ceilToGrid(from, space.timeZone);
  while (start + length <= window.end) {
    const handsFrom = nextWithin(space.handsTaken(window), start, length, need.hands, window.hands);
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
    if (from <= start) break;
  }
  return best;
}

/** The first instant of a local day, counted from the day an instant falls on. */
export function startOfLocalDay(epochMs: number, timeZone: string, daysLater: number): number {
  return startOfDay(localDay(epochMs, timeZone) + daysLater, timeZone);
}
