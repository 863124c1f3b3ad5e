/**
 * Sweeps over sorted intervals. All times are epoch milliseconds; intervals are half-open. Every
 * question is of the form "the first instant at or after t at which this holds", and each answer
 * never moves back when t moves on: that is what lets the search jump instead of trying every
 * quarter hour.
 */
export type Span = { readonly start: number; readonly end: number };

/** Sorted, disjoint and merged; empty spans are dropped. */
export type SortedSpans = readonly Span[];

export function sortedSpans(spans: readonly Span[]): SortedSpans {
  const sorted = spans.filter((span) => span.start < span.end).sort((a, b) => a.start - b.start);
  const merged: { start: number; end: number }[] = [];
  for (const span of sorted) {
    const last = merged.at(-1);
    if (last !== undefined && span.start <= last.end) last.end = Math.max(last.end, span.end);
    else merged.push({ start: span.start, end: span.end });
  }
  return merged;
}

/** Index of the first span that ends after `t`, by bisection; spans must be sorted and disjoint. */
export function firstEndingAfter(spans: readonly Span[], t: number): number {
  let low = 0;
  let high = spans.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    const span = spans[middle];
    if (span !== undefined && span.end <= t) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The span that overlaps [start, end) first, if any. */
export function firstOverlap(spans: SortedSpans, start: number, end: number): Span | undefined {
  const span = spans[firstEndingAfter(spans, start)];
  return span !== undefined && span.start < end ? span : undefined;
}

/** The first t' ≥ t at which [t', t' + length) is free. */
export function nextFree(spans: SortedSpans, t: number, length: number): number {
  let start = t;
  for (let i = firstEndingAfter(spans, t); i < spans.length; i++) {
    const span = spans[i];
    if (span === undefined || span.start >= start + length) break;
    start = span.end;
  }
  return start;
}

/** A quantity over time, constant on each step; zero outside the steps. */
export type Step = Span & { readonly amount: number };

/** Adds up amounts that overlap: people at lifts, kilowatts of kilns that heat. Steps come sorted and disjoint. */
export function stepsOf(parts: readonly Step[]): readonly Step[] {
  // Sorted apart, because what comes nearly in order is sorted in no time: so do starts, and so do ends.
  const lasting = parts.filter((part) => part.start < part.end);
  const starting = [...lasting].sort((a, b) => a.start - b.start);
  const ending = [...lasting].sort((a, b) => a.end - b.end);
  const steps: Step[] = [];
  let amount = 0;
  let begun = 0;
  for (let ended = 0; ended < ending.length; ) {
    const at = Math.min(starting[begun]?.start ?? Infinity, ending[ended]?.end ?? Infinity);
    for (; starting[begun]?.start === at; begun++) amount += starting[begun]?.amount ?? 0;
    for (; ending[ended]?.end === at; ended++) amount -= ending[ended]?.amount ?? 0;
    const next = Math.min(starting[begun]?.start ?? Infinity, ending[ended]?.end ?? Infinity);
    // What is left by rounding when all have ended is nothing.
    if (begun > ended && amount > 0) steps.push({ start: at, end: next, amount });
  }
  return steps;
}

/** Rounding left by adding and taking away decimal kilowatts; far below any figure a person enters. */
const AMOUNT_TOLERANCE = 1e-6;

export function isAbove(amount: number, limit: number): boolean {
  return amount > limit + AMOUNT_TOLERANCE;
}

/** The first step within [start, end) that leaves no room for `extra` below `limit`. */
export function firstAbove(steps: readonly Step[], start: number, end: number, extra: number, limit: number): Step | undefined {
  for (let i = firstEndingAfter(steps, start); i < steps.length; i++) {
    const step = steps[i];
    if (step === undefined || step.start >= end) return undefined;
    if (isAbove(step.amount + extra, limit)) return step;
  }
  return undefined;
}

/** The largest amount at any instant of [start, end). */
export function peakWithin(steps: readonly Step[], start: number, end: number): number {
  let peak = 0;
  for (let i = firstEndingAfter(steps, start); i < steps.length; i++) {
    const step = steps[i];
    if (step === undefined || step.start >= end) break;
    peak = Math.max(peak, step.amount);
  }
  return peak;
}

/** The first t' ≥ t at which `extra` for `length` stays within the limit everywhere. */
export function nextWithin(steps: readonly Step[], t: number, length: number, extra: number, limit: number): number {
  let start = t;
  for (;;) {
    const step = firstAbove(steps, start, start + length, extra, limit);
    if (step === undefined) return start;
    start = step.end;
  }
}
