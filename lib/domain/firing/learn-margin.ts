import { outOfRange } from "@/lib/domain/range";
import { ok, refusalOf, type Outcome, type Problem } from "@/lib/domain/refusal";

/** One firing that was started and opened. All in hours, elapsed. */
export type FiringRecord = {
  /** What its program was to take. */
  readonly programHours: number;
  /** The usual margin of that program, on top of it. */
  readonly usualMarginHours: number;
  /** What it took in the end, from its start until it could be opened; see `firingRecord`. */
  readonly actualHours: number;
};

/** A kiln's own margin, as a multiple of the usual one, and how many firings say so. */
export type LearnedMargin = {
  readonly factor: number;
  readonly firings: number;
  /** In how many of them this margin would have sufficed. */
  readonly sufficed: number;
};

/** `margin` is null while there are too few firings; then the usual margin is used. */
export type MarginLesson = { readonly margin: LearnedMargin | null; readonly why: string };

/** Fewer firings than this say nothing (common practice, no source). */
export const LEAST_FIRINGS = 3;
/** A margin that suffices in nine firings of ten, as a fraction so that no rounding moves a rank. */
const [SUFFICES, OF] = [9, 10];
/**
 * The usual margin stands for as many firings that nobody wrote down, in nine of which it sufficed and in one of which
 * half as much again would have. They outweigh few records and are outweighed by many. Common practice, no source.
 */
const UNWRITTEN = [1, 2, 3, 4, 5, 6, 7, 8, 9].map((ninth) => ninth / 9).concat(1.5);
/** No firing counts for more than this many times the usual margin, or the middle one of all where that is more. */
const MOST_OF_MIDDLE = 3;
/** Two firings that needed the same differ by no more than this, in usual margins: the rounding of their hours. */
const SAME = 1e-9;
const MOST_HOURS = 10_000;
/** No program fits into less than a quarter of an hour; a margin of nothing would divide by nothing. */
const LEAST_HOURS = 0.25;
/** The largest factor that records within their range can make, of hours and quarters. */
export const MOST_MARGIN = (MOST_OF_MIDDLE * MOST_HOURS) / LEAST_HOURS;

/**
 * The margin that would have sufficed in nine of ten firings of one kiln: the smallest record x with at least nine
 * tenths of all records at or below it, which is definition 1 (the inverse of the empirical distribution function) of
 * R. J. Hyndman and Y. Fan, Sample quantiles in statistical packages, The American Statistician 50 (1996) 361–365.
 * It is a record itself and never lies between two, so that a single wild firing has no pull on it, and one more
 * firing that outlasts it can never shrink it. Refused: a record with a number that is none or out of range.
 */
export function learnMargin(records: readonly FiringRecord[]): Outcome<MarginLesson> {
  const refusal = refusalOf(records.flatMap((record, at) => recordProblems(record, `records.${at}`)));
  if (refusal !== undefined) return refusal;
  if (records.length < LEAST_FIRINGS) return ok({ margin: null, why: TOO_FEW[records.length] ?? "" });
  const factor = factorOf([...UNWRITTEN, ...records.map(marginNeeded)]);
  const margin = { factor, firings: records.length, sufficed: records.filter((record) => suffices(factor, record)).length };
  return ok({ margin, why: learnedSentence(margin) });
}

/** @example learnedSentence({ factor: 1.2, firings: 7, sufficed: 6 }) // "Learned from 7 firings of this kiln: in 6 of 7 this would have sufficed." */
export function learnedSentence({ firings, sufficed }: LearnedMargin): string {
  return `Learned from ${firings} firings of this kiln: in ${sufficed} of ${firings} this would have sufficed.`;
}

/** How it is learned, for whoever asks why. */
export const HOW_LEARNED = [
  `It would have sufficed in ${SUFFICES} of ${OF} firings, where the usual margin stands for ${UNWRITTEN.length} firings that nobody wrote down. So a few firings move it little, and many move it far.`,
  "A firing counts until somebody said that it is cool. Where nobody did, one that was opened in time counts as what was held for it, as people may have come later than the kiln was ready, and one that was opened late counts in full.",
  `One wild firing does not pull it along, and none counts for more than ${MOST_OF_MIDDLE} usual margins, or ${MOST_OF_MIDDLE} times the middle one where that is more.`,
];

const TOO_FEW = [
  "No firing of this kiln has been opened yet: the usual margin is used.",
  `One firing of this kiln has been opened, and the margin is learned from ${LEAST_FIRINGS}: the usual margin is used.`,
  `Two firings of this kiln have been opened, and the margin is learned from ${LEAST_FIRINGS}: the usual margin is used.`,
];

/** What a firing needed beyond its program, in usual margins. Opened before its program was over, it needed none. */
function marginNeeded({ programHours, usualMarginHours, actualHours }: FiringRecord): number {
  return Math.max(0, actualHours - programHours) / usualMarginHours;
}

/** Whether a margin of so many usual margins would have sufficed for this firing. */
export function suffices(factor: number, record: FiringRecord): boolean {
  return marginNeeded(record) <= factor + SAME;
}

function factorOf(pooled: readonly number[]): number {
  const most = MOST_OF_MIDDLE * Math.max(1, middle(pooled));
  return inverseOfDistribution(pooled.map((one) => Math.min(one, most)), SUFFICES, OF);
}

/** Hyndman and Fan's definition 1 at the probability `share / of`: the order statistic of rank ⌈n · share / of⌉. */
export function inverseOfDistribution(values: readonly number[], share: number, of: number): number {
  const rank = Math.ceil((values.length * share) / of);
  const value = values.toSorted((a, b) => a - b)[Math.max(rank, 1) - 1];
  if (value === undefined) throw new Error("there is no quantile of nothing");
  return value;
}

function middle(values: readonly number[]): number {
  return inverseOfDistribution(values, 1, 2);
}

/** What is wrong with the numbers of a record; nothing when it can be learned from. NaN and infinities are wrong. */
export function recordProblems({ programHours, usualMarginHours, actualHours }: FiringRecord, field: string): Problem[] {
  return [
    outOfRange(`${field}.programHours`, programHours, LEAST_HOURS, MOST_HOURS, "h"),
    outOfRange(`${field}.usualMarginHours`, usualMarginHours, LEAST_HOURS, MOST_HOURS, "h"),
    outOfRange(`${field}.actualHours`, actualHours, 0, MOST_HOURS, "h"),
  ].filter((problem) => problem !== undefined);
}
