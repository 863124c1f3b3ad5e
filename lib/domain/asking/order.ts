import { Temporal } from "temporal-polyfill";
import { HOURS_PER_KILN_WEEK } from "@/lib/domain/time/kiln-weeks";
import { showDate, showTime } from "@/lib/domain/time/show-time";

/**
 * Who is offered time first. Each line decides only between those whom the lines before leave equal; nothing is weighed
 * against anything else, so the order of two asks never depends on a third, and the line that decides is the reason.
 */
export const RULE: readonly string[] = [
  "Who has had fewer whole kiln-weeks in the last 365 days, those booked ahead counted too, comes first. A shared firing counts by its castings.",
  "Then who has waited more whole weeks since asking.",
  "Then whose piece is needed sooner; one without a date comes last.",
  "Then what more hangs on, as its member said.",
  "Then who asked first.",
];

/** How far back kiln time counts. */
export const USED_DAYS = 365;

export type WaitingAsk = {
  readonly askId: string;
  readonly title: string;
  readonly owner: string;
  /** Kiln hours of the member in the last {@link USED_DAYS} days or booked ahead, their share of shared firings; 0 or more. */
  readonly kilnHours: number;
  readonly askedAt: Temporal.Instant;
  readonly neededBy: Temporal.PlainDate | null;
  /** 1 it can wait, 2 it matters, 3 much hangs on it. */
  readonly importance: number;
};

export type Placed<A extends WaitingAsk = WaitingAsk> = {
  readonly ask: A;
  /** From 1. */
  readonly place: number;
  readonly kilnWeeks: number;
  readonly weeksWaited: number;
  /** One sentence: what decided between it and the one before it, or after it for the first. */
  readonly because: string;
};

/** All asks in the order in which they are offered time. Total: the same asks always stand in the same order. */
export function inOrder<A extends WaitingAsk>(asks: readonly A[], now: Temporal.Instant, timeZone: string): readonly Placed<A>[] {
  const ordered = asks.map((ask) => standingOf(ask, now)).toSorted(compare);
  return ordered.map(({ ask, kilnWeeks, weeksWaited }, at) => ({ ask, place: at + 1, kilnWeeks, weeksWaited, because: because(ordered, at, timeZone) }));
}

type Standing<A extends WaitingAsk> = { readonly ask: A; readonly kilnWeeks: number; readonly weeksWaited: number };

function standingOf<A extends WaitingAsk>(ask: A, now: Temporal.Instant): Standing<A> {
  return {
    ask,
    kilnWeeks: Math.floor(ask.kilnHours / HOURS_PER_KILN_WEEK),
    weeksWaited: Math.floor((now.epochMilliseconds - ask.askedAt.epochMilliseconds) / (HOURS_PER_KILN_WEEK * 3_600_000)),
  };
}

type Line = { readonly compare: (a: Standing<WaitingAsk>, b: Standing<WaitingAsk>) => number; readonly say: (a: Standing<WaitingAsk>, b: Standing<WaitingAsk>, timeZone: string) => string };

/** The lines of {@link RULE}, each with what it says when it decides between `a`, who is first, and `b`. */
const LINES: readonly Line[] = [
  { compare: (a, b) => a.kilnWeeks - b.kilnWeeks, say: (a, b) => `${a.ask.owner} has had ${counted(a.kilnWeeks, "kiln-week")} in the last year, ${b.ask.owner} ${b.kilnWeeks}` },
  { compare: (a, b) => b.weeksWaited - a.weeksWaited, say: (a, b) => `kiln-weeks are equal, and ${a.ask.title} has waited ${counted(a.weeksWaited, "week")}, ${b.ask.title} ${b.weeksWaited}` },
  { compare: soonerNeeded, say: (a, b) => `kiln-weeks and waiting are equal, and ${a.ask.title} is needed ${by(a)}, ${b.ask.title} ${by(b)}` },
  { compare: (a, b) => b.ask.importance - a.ask.importance, say: (a) => `all before is equal, and more hangs on ${a.ask.title}, as its member said` },
  {
    compare: (a, b) => Temporal.Instant.compare(a.ask.askedAt, b.ask.askedAt),
    say: (a, b, timeZone) => `all else is equal, and ${a.ask.title} was asked for ${showTime(a.ask.askedAt, timeZone)}, ${b.ask.title} ${showTime(b.ask.askedAt, timeZone)}`,
  },
  { compare: (a, b) => (a.ask.askId === b.ask.askId ? 0 : a.ask.askId < b.ask.askId ? -1 : 1), say: () => "both were asked for at the same instant, and one must be first" },
];

function compare(a: Standing<WaitingAsk>, b: Standing<WaitingAsk>): number {
  return deciding(a, b)?.compare(a, b) ?? 0;
}

function deciding(a: Standing<WaitingAsk>, b: Standing<WaitingAsk>): Line | undefined {
  return LINES.find((line) => line.compare(a, b) !== 0);
}

function because(ordered: readonly Standing<WaitingAsk>[], at: number, timeZone: string): string {
  const [before, here, after] = [ordered[at - 1], ordered[at], ordered[at + 1]];
  if (here !== undefined && before !== undefined) return `After ${before.ask.title}: ${reason(before, here, timeZone)}.`;
  if (here !== undefined && after !== undefined) return `Before ${after.ask.title}: ${reason(here, after, timeZone)}.`;
  return "Nobody else is waiting.";
}

function reason(first: Standing<WaitingAsk>, second: Standing<WaitingAsk>, timeZone: string): string {
  return deciding(first, second)?.say(first, second, timeZone) ?? "both are the same ask";
}

/** No date sorts behind every date. */
function soonerNeeded(a: Standing<WaitingAsk>, b: Standing<WaitingAsk>): number {
  const [first, second] = [a.ask.neededBy, b.ask.neededBy];
  if (first === null || second === null) return Number(first === null) - Number(second === null);
  return Temporal.PlainDate.compare(first, second);
}

function by({ ask }: Standing<WaitingAsk>): string {
  return ask.neededBy === null ? "by no date" : `by ${showDate(ask.neededBy)}`;
}

function counted(count: number, word: string): string {
  return count === 1 ? `1 ${word}` : `${count} ${word}s`;
}
