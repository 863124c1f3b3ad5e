import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { CastingPlan, Margin, MarginItem } from "@/lib/domain/firing/casting-plan";
import type { Programmed } from "@/lib/domain/firing/cooling";
import { inDigits } from "@/lib/domain/firing/figures";
import { learnedSentence, type LearnedMargin } from "@/lib/domain/firing/learn-margin";
import { totalHours } from "@/lib/domain/firing/segment";
import { usualMargin } from "@/lib/domain/firing/usual-margin";
import { HOURS_PER_WEEK } from "@/lib/domain/units";

type Reserved = {
  readonly program: readonly Programmed[];
  readonly mould: CastingInput["mould"];
  readonly learned: LearnedMargin | undefined;
};

/**
 * What to reserve for a program, with the margin and its reasons: whole hours, and kiln-weeks of 168 h.
 * The margin is the usual one, or what the kiln's own firings say instead; never less than the program.
 */
export function reservationFor({ program, mould, learned }: Reserved): CastingPlan["reservation"] {
  const firingHours = totalHours(program);
  const usual = usualMargin(program, mould);
  const usualHours = usual.reduce((sum, { hours }) => sum + hours, 0);
  // The usual margin ends on a whole hour; what the sum of its parts is off by must not become another one.
  const usualEnd = Math.round(firingHours + usualHours);
  const hours = learned === undefined ? usualEnd : Math.ceil(firingHours + learned.factor * usualHours - ROUNDING_HOURS);
  const items = learned === undefined ? usual : [...usual, ownFirings(hours - usualEnd, learned)];
  const margin: Margin = { hours: hours - firingHours, usualHours, items, ...(learned === undefined ? {} : { learnedFrom: learned }) };
  return {
    hours,
    kilnWeeks: Math.round((hours / HOURS_PER_WEEK) * 100) / 100,
    marginHours: margin.hours,
    marginWhy: `${items.map(({ what, hours: own }) => `${inDigits(own)} h ${what}`).join(", ")}.`,
    margin,
  };
}

/** Far above the rounding of a sum of hours, far below a minute. */
const ROUNDING_HOURS = 1e-6;

function ownFirings(hours: number, learned: LearnedMargin): MarginItem {
  return { what: "for what this kiln's own firings needed", hours, why: learnedSentence(learned), source: "worked out" };
}
