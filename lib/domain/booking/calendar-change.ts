import type { Span, Step } from "@/lib/domain/booking/free-time";
import type { RunBooking, RunLift } from "@/lib/domain/booking/run-plan";
import { NO_STEPS, stepList, stepsIn, type SpanList, type StepList, type TakenCalendar } from "@/lib/domain/booking/taken-calendar";
import { MS_PER_HOUR } from "@/lib/domain/time/interval";

/** What one run takes of a calendar. Epoch milliseconds, half-open. */
export type RunTaken = {
  readonly busy: readonly TakenPiece[];
  readonly lifts: readonly Step[];
  readonly heating: readonly Step[];
};

/** `closedAt`: of a kiln, when its door closes. */
type TakenPiece = Span & { readonly equipmentId: string; readonly closedAt: number | null };

type Standing = {
  readonly bookings: readonly Pick<RunBooking, "purpose" | "equipmentId" | "start" | "end">[];
  readonly lifts: readonly Pick<RunLift, "what" | "start" | "end" | "hands">[];
  readonly heatingHours: number;
};

/** What a run takes: its kiln from the beginning of its loading. @param kw of its kiln */
export function takenByRun({ bookings, lifts, heatingHours }: Standing, kw: number): RunTaken {
  const load = Math.min(...[...bookings.filter(({ purpose }) => purpose === "load"), ...lifts.filter(({ what }) => what === "load")].map(({ start }) => start.epochMilliseconds));
  const kiln = bookings.find(({ purpose }) => purpose === "kiln")?.start.epochMilliseconds;
  return {
    busy: bookings.map(({ purpose, equipmentId, start, end }) => {
      const from = start.epochMilliseconds;
      return purpose === "kiln" ? { equipmentId, start: Math.min(from, load), end: end.epochMilliseconds, closedAt: from } : { equipmentId, start: from, end: end.epochMilliseconds, closedAt: null };
    }),
    lifts: lifts.map(({ start, end, hands }) => ({ start: start.epochMilliseconds, end: end.epochMilliseconds, amount: hands })),
    heating: kiln === undefined ? [] : [{ start: kiln, end: kiln + Math.round(heatingHours * MS_PER_HOUR), amount: kw }],
  };
}

/** Two instants that are the same but for how they were rounded. */
const SAME_MS = 1000;

/** A calendar as if these runs, which are in it, did not stand. */
export function withoutRuns(calendar: TakenCalendar, runs: readonly RunTaken[]): TakenCalendar {
  const busy = new Map(calendar.busy);
  for (const { equipmentId, start, closedAt } of runs.flatMap((run) => run.busy)) {
    // A kiln may be in it from the closing of its door, and once more for longer than it is booked.
    busy.set(equipmentId, (busy.get(equipmentId) ?? []).map((list) => spansWhere(list, (from) => from !== start && from !== closedAt)));
  }
  return { busy, lifts: stepsWithout(calendar.lifts, runs.flatMap(({ lifts }) => lifts)), heating: stepsWithout(calendar.heating, runs.flatMap(({ heating }) => heating)) };
}

/** A calendar in which this run stands too. */
export function withRun(calendar: TakenCalendar, run: RunTaken): TakenCalendar {
  return { busy: withSpans(calendar.busy, run.busy), lifts: stepList([...stepsIn(calendar.lifts), ...run.lifts]), heating: stepList([...stepsIn(calendar.heating), ...run.heating]) };
}

function withSpans(all: TakenCalendar["busy"], spans: readonly (Span & { readonly equipmentId: string })[]): TakenCalendar["busy"] {
  const busy = new Map(all);
  for (const { equipmentId, start, end } of spans) {
    const lists = busy.get(equipmentId) ?? [];
    const joined = (of: (list: SpanList) => Float64Array, own: number): Float64Array => Float64Array.from([...lists.flatMap((list) => [...of(list)]), own]);
    busy.set(equipmentId, [{ starts: joined(({ starts }) => starts, start), ends: joined(({ ends }) => ends, end) }]);
  }
  return busy;
}

function spansWhere(list: SpanList, stays: (start: number) => boolean): SpanList {
  const kept = Array.from(list.starts.keys()).filter((i) => stays(list.starts[i] ?? NaN));
  if (kept.length === list.starts.length) return list;
  return { starts: Float64Array.from(kept, (i) => list.starts[i] ?? NaN), ends: Float64Array.from(kept, (i) => list.ends[i] ?? NaN) };
}

/** Each of them once. */
function stepsWithout(list: StepList, gone: readonly Step[]): StepList {
  if (list.starts.length === 0) return NO_STEPS;
  const left = new Map<number, Step[]>();
  for (const step of gone) left.set(step.start, [...(left.get(step.start) ?? []), step]);
  return stepList(stepsIn(list).filter((step) => {
    const same = left.get(step.start) ?? [];
    const at = same.findIndex(({ end, amount }) => amount === step.amount && Math.abs(end - step.end) <= SAME_MS);
    if (at >= 0) same.splice(at, 1);
    return at < 0;
  }));
}
