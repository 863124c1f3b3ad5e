import { Temporal } from "temporal-polyfill";
import { assembleRun, atInstant } from "@/lib/domain/booking/assemble-run";
import type { Kiln } from "@/lib/domain/booking/equipment";
import { inductionLacking, limitsOf } from "@/lib/domain/booking/find-time";
import { kilnFit } from "@/lib/domain/booking/fits";
import { isAbove } from "@/lib/domain/booking/free-time";
import { planFor, runNeeds, type RunNeeds } from "@/lib/domain/booking/run-needs";
import type { RunProposal } from "@/lib/domain/booking/run-plan";
import type { RunQuestion } from "@/lib/domain/booking/run-question";
import { earliestSlots, firstLoadStart, trySlots } from "@/lib/domain/booking/run-search";
import { searchSpace, type SearchSpace } from "@/lib/domain/booking/search-space";
import { obstacleProblem } from "@/lib/domain/booking/obstacle-problem";
import { ok, refuse, type Outcome, type Problem } from "@/lib/domain/refusal";
import { ceilToGrid, isOnGrid } from "@/lib/domain/time/grid";
import { MS_PER_MINUTE } from "@/lib/domain/time/interval";
import { showTime } from "@/lib/domain/time/show-time";

/**
 * The run whose kiln door closes at exactly `wantedKilnStart`, or what stands in the way and until
 * when. When moving a run, leave its own bookings, lifts and heating out of the question, and set
 * `steamedOutAt` if its steam-out stays where it is.
 *
 * Every refusal carries `data.until` (what stands in the way is gone then, if known) and
 * `data.nextKilnStart` (the next start that would do, if there is one), both as ISO instants.
 */
export function runAt(question: RunQuestion, kilnId: string, wantedKilnStart: Temporal.Instant): Outcome<RunProposal> {
  const kiln = question.equipment.find((item): item is Kiln => item.kind === "kiln" && item.equipmentId === kilnId);
  if (kiln === undefined) return refuse({ code: "unknown-kiln", field: "kilnId", value: kilnId, message: "The workshop has no such kiln." });
  const plan = planFor(question, kiln);
  const misfits = kilnFit(plan, kiln).map((message): Problem => ({ code: "does-not-fit", field: "kilnId", message }));
  const notShown = inductionLacking(question, kiln);
  if (notShown !== undefined) return refuse({ code: "no-induction", field: "kilnId", message: notShown });
  const { needs, problems } = runNeeds(question, plan);
  const lacking = problems.map((message): Problem => ({ code: "lacking", message }));
  const [first, ...rest] = [...misfits, ...lacking, ...powerProblems(question, kiln)];
  if (first !== undefined) return refuse(first, ...rest);
  if (needs === null) return refuse({ code: "lacking", message: "The run cannot be planned." });
  return runFrom(question, kiln, needs, wantedKilnStart);
}

function runFrom(question: RunQuestion, kiln: Kiln, needs: RunNeeds, wanted: Temporal.Instant): Outcome<RunProposal> {
  const space = searchSpace(question);
  const limits = limitsOf(question);
  const loadStart = wanted.epochMilliseconds - needs.load.minutes * MS_PER_MINUTE;
  const early = tooEarly(question, space, needs, wanted);
  if (early !== undefined) return refuse(withNext(early, question, space, kiln, needs, loadStart));
  const tried = trySlots(space, kiln, needs, limits, loadStart);
  if ("slots" in tried) return ok(assembleRun(question, kiln, needs, tried.slots, atInstant));
  const problem = obstacleProblem(question, space, kiln, needs, tried, loadStart);
  return refuse(withNext(problem, question, space, kiln, needs, loadStart));
}

function powerProblems(question: RunQuestion, kiln: Kiln): Problem[] {
  const { powerLimitKw } = question;
  if (powerLimitKw === null || !isAbove(kiln.limits.powerKw, powerLimitKw)) return [];
  return [{ code: "power", field: "kilnId", message: `${kiln.name} draws ${kiln.limits.powerKw} kW while it heats; the electrician's limit is ${powerLimitKw} kW.` }];
}

/** Refuses a start off the quarter hours, before the question's own start, or before the mould has drained or dried. */
function tooEarly(question: RunQuestion, space: SearchSpace, needs: RunNeeds, wanted: Temporal.Instant): Problem | undefined {
  const { timeZone } = space;
  const base = { field: "kilnStart", value: wanted.toString() };
  if (!isOnGrid(wanted.epochMilliseconds, timeZone)) {
    const next = Temporal.Instant.fromEpochMilliseconds(ceilToGrid(wanted.epochMilliseconds, timeZone));
    return { ...base, code: "off-grid", allowed: "a full quarter hour", message: `A kiln starts on a quarter hour; the next one is ${showTime(next, timeZone)}.` };
  }
  const first = firstLoadStart(space, needs, limitsOf(question)) + needs.load.minutes * MS_PER_MINUTE;
  if (wanted.epochMilliseconds >= first) return undefined;
  const from = Temporal.Instant.fromEpochMilliseconds(ceilToGrid(first, timeZone));
  const why = first > space.notBefore + needs.load.minutes * MS_PER_MINUTE ? " because the mould must drain or dry first" : "";
  return {
    ...base,
    code: "too-early",
    allowed: `${showTime(from, timeZone)} or later`,
    message: `The kiln cannot start at ${showTime(wanted, timeZone)}; ${showTime(from, timeZone)} is the first possible time${why}.`,
    data: { until: from.toString() },
  };
}

function withNext(problem: Problem, question: RunQuestion, space: SearchSpace, kiln: Kiln, needs: RunNeeds, loadStart: number): Problem {
  const { slots } = earliestSlots(space, kiln, needs, limitsOf(question), loadStart);
  if (slots === null) return problem;
  const next = Temporal.Instant.fromEpochMilliseconds(slots.load.end);
  return {
    ...problem,
    message: `${problem.message} The next start that would do is ${showTime(next, space.timeZone)}.`,
    data: { ...problem.data, nextKilnStart: next.toString() },
  };
}
