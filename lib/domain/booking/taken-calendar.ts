import { stepsOf, type Span, type Step } from "@/lib/domain/booking/free-time";

/**
 * A whole calendar as numbers, for questions about many kilns over many months. Lists of numbers and not of objects,
 * because most of them are never looked at. Epoch milliseconds, half-open.
 */
export type TakenCalendar = {
  /** Of each piece of equipment; a kiln is taken from the loading before its door closes. Any order. */
  readonly busy: ReadonlyMap<string, readonly SpanList[]>;
  /** Hands at lifts, in order of their start. */
  readonly lifts: StepList;
  /** Kilowatts of kilns that heat. Any order. */
  readonly heating: StepList;
};

export type SpanList = { readonly starts: Float64Array; readonly ends: Float64Array };
export type StepList = SpanList & { readonly amounts: Float64Array };

export const NO_STEPS: StepList = { starts: new Float64Array(0), ends: new Float64Array(0), amounts: new Float64Array(0) };

export function spansIn({ starts, ends }: SpanList): Span[] {
  return Array.from(starts, (start, i) => ({ start, end: ends[i] ?? start }));
}

export function stepsIn({ starts, ends, amounts }: StepList): Step[] {
  return Array.from(starts, (start, i) => ({ start, end: ends[i] ?? start, amount: amounts[i] ?? 0 }));
}

/** The hands that lifts take within a window, as steps; only the lifts that touch it are looked at. */
export function handsWithin({ starts, ends, amounts }: StepList, longest: number, window: Span): readonly Step[] {
  const touching: Step[] = [];
  for (let i = firstFrom(starts, window.start - longest); i < starts.length; i++) {
    const [start = Infinity, end = Infinity, amount = 0] = [starts[i], ends[i], amounts[i]];
    if (start >= window.end) break;
    if (end > window.start) touching.push({ start, end, amount });
  }
  return stepsOf(touching);
}

/** Index of the first number that is not below `t`, by bisection. */
function firstFrom(sorted: Float64Array, t: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((sorted[middle] ?? Infinity) < t) low = middle + 1;
    else high = middle;
  }
  return low;
}

export function longestOf({ starts, ends }: SpanList): number {
  return starts.reduce((longest, start, i) => Math.max(longest, (ends[i] ?? start) - start), 0);
}

/** One list after another. */
export function joined(lists: readonly StepList[]): StepList {
  const all = (of: (list: StepList) => Float64Array): Float64Array => {
    const numbers = new Float64Array(lists.reduce((sum, list) => sum + of(list).length, 0));
    let at = 0;
    for (const list of lists) {
      numbers.set(of(list), at);
      at += of(list).length;
    }
    return numbers;
  };
  return { starts: all(({ starts }) => starts), ends: all(({ ends }) => ends), amounts: all(({ amounts }) => amounts) };
}

/** As one list in order of their start. */
export function stepList(steps: readonly Step[]): StepList {
  const sorted = [...steps].sort((a, b) => a.start - b.start);
  return {
    starts: Float64Array.from(sorted, ({ start }) => start),
    ends: Float64Array.from(sorted, ({ end }) => end),
    amounts: Float64Array.from(sorted, ({ amount }) => amount),
  };
}
