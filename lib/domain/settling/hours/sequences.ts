import type { HourPlacement, HourProblem, Taken } from "@/lib/domain/settling/hours/hour-problem";
import { firstFreeStart } from "@/lib/domain/settling/hours/kiln-hours";

/** One kiln's asks in the order they are fired, each as early as the order allows; `count` are in use. */
export type KilnSequence = { count: number; readonly asks: Int32Array; readonly starts: Float64Array; readonly ends: Float64Array };

/**
 * An order on every kiln. Lateness never falls when a firing starts later, so for a given order the
 * earliest starts are the best ones, and the order is all a search has to look for.
 *
 * The figures of the asks lie in flat arrays; `hours[ask × kilns + kiln]` is 0 where it does not fit.
 */
export type Sequences = {
  readonly asks: number;
  readonly hours: Float64Array;
  readonly release: Float64Array;
  readonly due: Float64Array;
  readonly weight: Float64Array;
  readonly taken: readonly (readonly Taken[])[];
  readonly kilns: KilnSequence[];
  /** On which kiln each ask stands; −1 while it is on none. */
  readonly kilnOf: Int32Array;
  cost: number;
};

export function emptySequences({ kilns, asks, taken }: HourProblem): Sequences {
  const count = asks.length;
  const hours = new Float64Array(count * kilns.length);
  asks.forEach((ask, row) => hours.set(ask.hours, row * kilns.length));
  return {
    asks: count,
    hours,
    release: Float64Array.from(asks, (ask) => ask.releaseH),
    due: Float64Array.from(asks, (ask) => ask.dueH),
    weight: Float64Array.from(asks, (ask) => ask.weight),
    taken,
    kilns: kilns.map(() => emptyKiln(Math.min(count, 8))),
    kilnOf: new Int32Array(count).fill(-1),
    cost: 0,
  };
}

function emptyKiln(room: number): KilnSequence {
  return { count: 0, asks: new Int32Array(room), starts: new Float64Array(room), ends: new Float64Array(room) };
}

export function copyKiln(kiln: KilnSequence, room = kiln.asks.length): KilnSequence {
  const copy = emptyKiln(room);
  copy.count = kiln.count;
  copy.asks.set(kiln.asks);
  copy.starts.set(kiln.starts);
  copy.ends.set(kiln.ends);
  return copy;
}

/** What putting an ask before `position` adds to the cost; stops adding once that is `enough`. */
export function insertionCost(plan: Sequences, kiln: number, position: number, ask: number, enough: number): number {
  const { hours, release, due, weight } = plan;
  const { count, asks, starts, ends } = plan.kilns[kiln]!;
  const taken = plan.taken[kiln]!;
  const width = plan.kilns.length;
  const own = hours[ask * width + kiln]!;
  const ready = Math.max(position > 0 ? ends[position - 1]! : 0, release[ask]!);
  let end = own + (taken.length === 0 ? ready : firstFreeStart(taken, ready, own));
  let added = end > due[ask]! ? weight[ask]! * (end - due[ask]!) : 0;
  for (let i = position; i < count && added < enough && end > starts[i]!; i++) {
    const one = asks[i]!;
    const length = hours[one * width + kiln]!;
    if (release[one]! > end) end = release[one]!;
    end = length + (taken.length === 0 ? end : firstFreeStart(taken, end, length));
    const dueH = due[one]!;
    if (end > dueH) added += weight[one]! * (end - (ends[i]! > dueH ? ends[i]! : dueH));
  }
  return added;
}

/** The least an ask costs on a kiln when everything before `position` stays: its own lateness there. */
export function ownCost(plan: Sequences, kiln: number, position: number, ask: number): number {
  const ready = Math.max(position > 0 ? plan.kilns[kiln]!.ends[position - 1]! : 0, plan.release[ask]!);
  return latenessCost(plan, ask, ready + plan.hours[ask * plan.kilns.length + kiln]!);
}

export function latenessCost({ due, weight }: Sequences, ask: number, end: number): number {
  return end > due[ask]! ? weight[ask]! * (end - due[ask]!) : 0;
}

export function insertAsk(plan: Sequences, kiln: number, position: number, ask: number): void {
  if (plan.kilns[kiln]!.count === plan.kilns[kiln]!.asks.length) plan.kilns[kiln] = copyKiln(plan.kilns[kiln]!, plan.kilns[kiln]!.asks.length * 2 + 2);
  const sequence = plan.kilns[kiln]!;
  for (const row of [sequence.asks, sequence.starts, sequence.ends]) row.copyWithin(position + 1, position, sequence.count);
  sequence.asks[position] = ask;
  sequence.ends[position] = -Infinity;
  sequence.count++;
  plan.kilnOf[ask] = kiln;
  retime(plan, kiln, position);
}

export function removeAsk(plan: Sequences, kiln: number, position: number): void {
  const sequence = plan.kilns[kiln]!;
  const ask = sequence.asks[position]!;
  plan.cost -= latenessCost(plan, ask, sequence.ends[position]!);
  for (const row of [sequence.asks, sequence.starts, sequence.ends]) row.copyWithin(position, position + 1, sequence.count);
  sequence.count--;
  plan.kilnOf[ask] = -1;
  retime(plan, kiln, position);
}

/** Works out starts and ends from `position` on, and carries the cost along. */
function retime(plan: Sequences, kiln: number, position: number): void {
  const { count, asks, starts, ends } = plan.kilns[kiln]!;
  const taken = plan.taken[kiln]!;
  let end = position > 0 ? ends[position - 1]! : 0;
  for (let i = position; i < count; i++) {
    const ask = asks[i]!;
    const hours = plan.hours[ask * plan.kilns.length + kiln]!;
    const start = firstFreeStart(taken, Math.max(end, plan.release[ask]!), hours);
    const before = ends[i]!;
    end = start + hours;
    if (end === before && start === starts[i]) return;
    plan.cost += latenessCost(plan, ask, end) - latenessCost(plan, ask, before);
    starts[i] = start;
    ends[i] = end;
  }
}

export function placementsOf(plan: Sequences): HourPlacement[] {
  return plan.kilns.flatMap(({ count, asks, starts, ends }, kiln) =>
    Array.from({ length: count }, (_, i) => ({ ask: asks[i]!, kiln, fromH: starts[i]!, toH: ends[i]! })),
  );
}
