import type { Kiln } from "@/lib/domain/booking/equipment";
import { findRunsAt } from "@/lib/domain/booking/find-time";
import type { Purpose, RunProposalAt } from "@/lib/domain/booking/run-plan";
import type { KilnAnswerAt, RunQuestion } from "@/lib/domain/booking/run-question";
import { planFor } from "@/lib/domain/booking/run-needs";
import type { CastingPlan, Lift, Stage } from "@/lib/domain/firing/casting-plan";
import type { Outcome } from "@/lib/domain/refusal";
import { atIso } from "@/lib/server/runs/at-iso";

/** One booking of an offered run. Instants are ISO 8601. */
export type OfferedPart = {
  readonly purpose: Purpose;
  readonly equipmentName: string;
  readonly from: string;
  readonly to: string;
  readonly hands: number;
};

export type OfferedLift = {
  readonly what: Lift["what"];
  readonly from: string;
  readonly to: string;
  readonly kg: number;
  readonly hands: number;
  readonly trolleyName: string | null;
  readonly flag: Lift["flag"];
  readonly hot: boolean;
  readonly wet: boolean;
};

export type OfferedRun = {
  readonly kilnId: string;
  /** Door closed. */
  readonly kilnFrom: string;
  readonly kilnTo: string;
  readonly readyAt: string;
  readonly steamFrom: string | null;
  readonly daysLate: number;
  readonly parts: readonly OfferedPart[];
  readonly lifts: readonly OfferedLift[];
};

/** What one kiln offers: at least one run, earliest first, or one line why there is none. */
export type KilnOffers = {
  readonly kilnId: string;
  readonly kilnName: string;
  readonly insideMm: readonly [number, number, number];
  readonly stages: readonly Stage[];
  /** How long the plan for this kiln holds it, from door closed to unloading, with its margin. */
  readonly reservation: CastingPlan["reservation"];
  readonly runs: readonly OfferedRun[];
  readonly whyNot: string | null;
};

export type Offers = {
  readonly kilns: readonly KilnOffers[];
  /** What stands in the way on every kiln; empty when anything is offered. */
  readonly refusals: readonly string[];
};

/** @param refused kilns that the casting could not be planned for; they offer nothing, whatever is free. */
export function runOffers(question: RunQuestion, refused: ReadonlyMap<string, string>): Offers {
  const found = findRunsAt(question, atIso);
  const names = new Map(question.equipment.map((item) => [item.equipmentId, item.name]));
  const kilns = question.equipment.filter((item): item is Kiln => item.kind === "kiln");
  const answers = new Map(found.kilns.map((answer) => [answer.kilnId, answer]));
  const offers = kilns.flatMap((kiln) => {
    const answer = answers.get(kiln.equipmentId);
    return answer === undefined ? [] : [kilnOffers(kiln, planFor(question, kiln), answer, refused.get(kiln.equipmentId), names)];
  });
  const anything = offers.some((offer) => offer.runs.length > 0);
  return { kilns: offers.sort(soonestFirst), refusals: anything ? [] : refusalsOf(found.refusals, refused) };
}

function kilnOffers(kiln: Kiln, plan: CastingPlan, answer: KilnAnswerAt<string>, refusal: string | undefined, names: ReadonlyMap<string, string>): KilnOffers {
  return {
    kilnId: kiln.equipmentId,
    kilnName: kiln.name,
    insideMm: kiln.limits.insideMm,
    stages: plan.firing.stages,
    reservation: plan.reservation,
    runs: refusal === undefined ? answer.runs.map((run) => offeredRun(run, names)) : [],
    whyNot: answer.whyNot ?? refusal ?? null,
  };
}

function offeredRun(run: RunProposalAt<string>, names: ReadonlyMap<string, string>): OfferedRun {
  const name = (equipmentId: string) => names.get(equipmentId) ?? equipmentId;
  return {
    kilnId: run.kilnId,
    kilnFrom: run.kilnFrom,
    kilnTo: run.kilnTo,
    readyAt: run.readyAt,
    steamFrom: run.bookings.find((booking) => booking.purpose === "steam-out")?.start ?? null,
    daysLate: run.daysLate,
    parts: run.bookings.map(({ purpose, equipmentId, start, end, hands }) => ({
      purpose, equipmentName: name(equipmentId), from: start, to: end, hands,
    })),
    lifts: run.lifts.map(({ what, start, end, kg, hands, trolleyId, flag, hot, wet }) => ({
      what, from: start, to: end, kg, hands, trolleyName: trolleyId === null ? null : name(trolleyId), flag, hot, wet,
    })),
  };
}

/** By when the piece is ready; kilns that offer nothing come last. */
function soonestFirst(a: KilnOffers, b: KilnOffers): number {
  const [first, second] = [a.runs[0], b.runs[0]];
  if (first === undefined || second === undefined) return Number(first === undefined) - Number(second === undefined);
  return Date.parse(first.readyAt) - Date.parse(second.readyAt);
}

function refusalsOf(found: readonly string[], refused: ReadonlyMap<string, string>): readonly string[] {
  return found.length > 0 ? found : [...new Set(refused.values())];
}

/** Splits plans by kiln into those that were made and, for the others, why not. */
export function plansAndRefusals(byKiln: ReadonlyMap<string, Outcome<CastingPlan>>) {
  const plans = new Map<string, CastingPlan>();
  const refused = new Map<string, string>();
  for (const [kilnId, outcome] of byKiln) {
    if (outcome.ok) plans.set(kilnId, outcome.value);
    else refused.set(kilnId, outcome.problems.map((problem) => problem.message).join(" "));
  }
  return { plans, refused };
}

