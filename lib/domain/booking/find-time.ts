import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import type { Equipment, Kiln } from "@/lib/domain/booking/equipment";
import { assembleRun, atInstant } from "@/lib/domain/booking/assemble-run";
import { isAbove } from "@/lib/domain/booking/free-time";
import { kilnFit, noKilnFits } from "@/lib/domain/booking/fits";
import { inspectionsDue } from "@/lib/domain/booking/inspection";
import { planFor, runNeeds, type NeedsOrProblems, type RunNeeds } from "@/lib/domain/booking/run-needs";
import type { RunProposalAt } from "@/lib/domain/booking/run-plan";
import type { FoundRuns, FoundRunsAt, KilnAnswerAt, RunQuestion } from "@/lib/domain/booking/run-question";
import { earliestSlots, type Obstacle, type SearchLimits } from "@/lib/domain/booking/run-search";
import { searchSpace, startOfLocalDay, type SearchSpace } from "@/lib/domain/booking/search-space";
import { showHours, showTimeWithYear } from "@/lib/domain/time/show-time";

/**
 * The earliest possible runs on every kiln that fits, or why there is none. Exact on a grid of
 * quarter hours of the workshop's clock: no earlier start would do. Work grows with the number of
 * obstacles met, not with the length of the calendar before them.
 *
 * Alternatives after the first each start on a later local day than the one before.
 */
export function findRuns(question: RunQuestion): FoundRuns {
  return findRunsAt(question, atInstant);
}

/** The same in times of another kind, made of epoch milliseconds: thousands of instants that are only printed would cost more than the search. */
export function findRunsAt<T>(question: RunQuestion, at: (epochMs: number) => T): FoundRunsAt<T> {
  const kilns = question.equipment.filter((item): item is Kiln => item.kind === "kiln");
  const fitting = kilns.filter((kiln) => kilnFit(planFor(question, kiln), kiln).length === 0);
  const needsOf = needsByPlan(question);
  const common = fitting.length === 0 ? [noKilnFits(question.plan, kilns)] : commonProblems(question, fitting, needsOf);
  const space = searchSpace(question);
  const answers = kilns.map((kiln) => answerFor(question, space, kiln, needsOf, at));
  const found = answers.some((answer) => answer.runs.length > 0);
  if (found) return { kilns: answers, refusals: [] };
  return { kilns: answers, refusals: common.length > 0 ? common : ["No kiln that fits this load is free long enough with everything the run needs."] };
}

type NeedsOf = (plan: CastingPlan) => NeedsOrProblems;

/** Kilns of one make share a plan, and what it asks for is worked out once. */
function needsByPlan(question: RunQuestion): NeedsOf {
  const known = new Map<CastingPlan, NeedsOrProblems>();
  return (plan) => {
    const needs = known.get(plan) ?? runNeeds(question, plan);
    known.set(plan, needs);
    return needs;
  };
}

/** What is lacking for every kiln alike, said once. */
function commonProblems(question: RunQuestion, kilns: readonly Kiln[], needsOf: NeedsOf): readonly string[] {
  const each = kilns.map((kiln) => needsOf(planFor(question, kiln)).problems);
  const [first = [], ...others] = each;
  return first.filter((text) => others.every((problems) => problems.includes(text)));
}

function answerFor<T>(question: RunQuestion, space: SearchSpace, kiln: Kiln, needsOf: NeedsOf, at: (epochMs: number) => T): KilnAnswerAt<T> {
  const base = { kilnId: kiln.equipmentId, kilnName: kiln.name };
  const plan = planFor(question, kiln);
  const misfits = kilnFit(plan, kiln);
  if (misfits.length > 0) return { ...base, runs: [], whyNot: misfits.join(" ") };
  const notShown = inductionLacking(question, kiln);
  if (notShown !== undefined) return { ...base, runs: [], whyNot: notShown };
  const { needs, problems } = needsOf(plan);
  if (needs === null) return { ...base, runs: [], whyNot: problems.join(" ") };
  const { powerLimitKw } = question;
  if (powerLimitKw !== null && isAbove(kiln.limits.powerKw, powerLimitKw)) {
    return { ...base, runs: [], whyNot: `${kiln.name} draws ${kiln.limits.powerKw} kW while it heats; the electrician's limit is ${powerLimitKw} kW.` };
  }
  const { runs, obstacle } = runsOn(question, space, kiln, needs, at);
  return { ...base, runs, whyNot: runs.length > 0 ? null : whyNot(question, kiln, needs, obstacle) };
}

function runsOn<T>(question: RunQuestion, space: SearchSpace, kiln: Kiln, needs: RunNeeds, at: (epochMs: number) => T): { runs: RunProposalAt<T>[]; obstacle: Obstacle | null } {
  const limits = limitsOf(question);
  const runs: RunProposalAt<T>[] = [];
  let from = space.notBefore;
  while (runs.length < question.perKiln) {
    const { slots, lastObstacle } = earliestSlots(space, kiln, needs, limits, from);
    if (slots === null) return { runs, obstacle: lastObstacle };
    runs.push(assembleRun(question, kiln, needs, slots, at));
    from = startOfLocalDay(slots.load.start, space.timeZone, 1);
  }
  return { runs, obstacle: null };
}

/** Says that the casting's owner was never shown this kiln; undefined when that is not needed, or done. */
export function inductionLacking({ notShown }: RunQuestion, kiln: Kiln): string | undefined {
  if (notShown?.kilnIds.has(kiln.equipmentId) !== true) return undefined;
  return `${notShown.person} has had no induction on ${kiln.name}; once it was given, a manager records it under People.`;
}

export function limitsOf(question: RunQuestion): SearchLimits {
  return {
    powerLimitKw: question.powerLimitKw,
    steamedOutAt: question.steamedOutAt?.epochMilliseconds ?? null,
    steamFrom: question.steamFrom?.epochMilliseconds ?? null,
  };
}

function whyNot(question: RunQuestion, kiln: Kiln, needs: RunNeeds, obstacle: Obstacle | null): string {
  const { hours, horizon } = question;
  return `${obstacleText(question, kiln, needs, obstacle)}${inspectionsDue(concerned(kiln, needs, obstacle), hours.timeZone, horizon)}`;
}

/** The equipment that an obstacle is about. */
function concerned(kiln: Kiln, needs: RunNeeds, obstacle: Obstacle | null): readonly Equipment[] {
  if (obstacle === "load") return needs.load.trolleys;
  if (obstacle === "unload") return needs.unload.trolleys;
  if (obstacle === "steam") return needs.steam?.steamers ?? [];
  return obstacle === "power" ? [] : [kiln];
}

function obstacleText(question: RunQuestion, kiln: Kiln, needs: RunNeeds, obstacle: Obstacle | null): string {
  const until = horizonText(question);
  switch (obstacle) {
    case "load":
      return `Before ${until} nobody is free to load ${kiln.name}: it takes ${needs.load.minutes} minutes, ${handsText(needs.load.hands)} and any trolley in staffed hours.`;
    case "unload":
      return `No unloading of ${kiln.name} fits into staffed hours before ${until}; the firing holds it for ${showHours(needs.reservationHours)}.`;
    case "steam":
      return `No steam-out of ${showHours(needs.steam?.hours ?? 0)} fits in time before loading ${kiln.name}, up to ${until}.`;
    case "power":
      return `${kiln.name} cannot heat beside the other kilns within the electrician's limit of ${question.powerLimitKw ?? 0} kW before ${until}.`;
    case "kiln":
    case "horizon":
    case null:
      return `${kiln.name} is not free for ${showHours(needs.reservationHours)} at a stretch before ${until}.`;
    default:
      return obstacle satisfies never;
  }
}

/** Of the last question: every kiln without a run says it, and showing a time costs more than looking for one. */
let shown: { readonly question: RunQuestion; readonly text: string } | undefined;

function horizonText(question: RunQuestion): string {
  if (shown?.question !== question) shown = { question, text: showTimeWithYear(question.horizon, question.hours.timeZone) };
  return shown.text;
}

function handsText(hands: number): string {
  return hands === 1 ? "one pair of hands" : `${hands} people`;
}
