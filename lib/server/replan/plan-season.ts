import type { Temporal } from "temporal-polyfill";
import type { SeasonPlan } from "@/lib/contracts/replan";
import { NO_WISHES, type ClashGround, type Forbid } from "@/lib/domain/settling/clash/clash-ground";
import { clashProblem } from "@/lib/domain/settling/clash/clash-problem";
import type { SeasonSpan } from "@/lib/domain/settling/clash/season";
import { problemFor, settlementFrom } from "@/lib/domain/settling/clash/settle-clash";
import { DEFAULT_WEIGHTS } from "@/lib/domain/settling/clash/weights";
import { dayProblemFaults } from "@/lib/domain/settling/days/day-problem-faults";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { showDate } from "@/lib/domain/time/show-time";
import { settleInWorker } from "@/lib/server/settling/settle-in-worker";
import type { DaysPlan } from "@/lib/server/settling/settle-task";
import type { SeasonWatch } from "@/lib/server/replan/season-watch";
import { tryOut } from "@/lib/server/ways-out/try-out";
import { inOrder, refusedPlaces } from "@/lib/server/ways-out/wanted-moves";
import { clashGround } from "@/lib/server/ways-out/ways-out";
import type { Who } from "@/lib/server/who";

export type SeasonSearch = { readonly who: Who; readonly span: SeasonSpan; readonly seconds: number; readonly iterations?: number | null; readonly watch: SeasonWatch };

/** The first search gets this share of the time; the others, without what the hours refused, share what is left. */
const FIRST_SHARE = 0.7;
const LEAST_SECONDS = 2;
const MOST_ROUNDS = 10;
/** From this round on an ask that finds no hours is left waiting, where before only its place was ruled out. */
const PATIENCE = 4;

/**
 * Plans a whole season anew: every ask and every run that may move, settled in days in threads of their own, then tried
 * out to the quarter hour; what the hours refuse is ruled out and it is settled again. An ask that cannot be placed
 * stays waiting and is said; a booked run that cannot is a refusal. Where the calendar has changed meanwhile so that the
 * plan cannot stand, it begins again from what is there now. When the watch says stop, it ends with the best so far.
 */
export async function planSeason({ who, span, seconds, iterations = null, watch }: SeasonSearch): Promise<Outcome<SeasonPlan>> {
  const endsAtMs = Date.now() + seconds * 1000;
  let { fingerprint, today, aside, ground } = await possibleGround(who, span);
  const sayDay = (day: number): string => showDate(today.add({ days: day }));
  let forbids: readonly Forbid[] = [];
  for (let round = 1; ; round++) {
    const problem = problemFor(ground, { ...NO_WISHES, forbids }, DEFAULT_WEIGHTS, "season");
    if (!problem.ok) return problem;
    const left = (endsAtMs - Date.now()) / 1000;
    const share = round === 1 ? FIRST_SHARE * seconds : left / 2;
    const running = settleInWorker({ kind: "days", problem: problem.value, seed: 1, iterations }, watch.isStopped ? LEAST_SECONDS : Math.max(LEAST_SECONDS, share), ({ cost, bound }, plan) => watch.found(ground, plan, { cost, bound }));
    watch.searching(ground, round === 1 ? running.stop : undefined);
    const { plan, bound } = await running.result;
    if (watch.isGone) return refuse({ code: "gone", message: "Another process computes this." });
    const missing = missingAsks(ground, plan as DaysPlan);
    if (missing.size > 0 && round < MOST_ROUNDS) {
      aside.push(...ground.runs.filter(({ runId }) => missing.has(runId)).map(({ title }) => `${title}: no place was found before ${sayDay(problem.value.horizon - 1)}.`));
      ground = without(ground, missing);
      continue;
    }
    const settled = settlementFrom(ground, "season", problem.value, plan as DaysPlan, bound, sayDay);
    if (!settled.ok) return settled;
    const { placements: _days, aim: _aim, ...settlement } = settled.value;
    await watch.placing();
    const times = await tryOut(who, inOrder(settlement.moves, today, who.timeZone));
    if (times.ok) return ok({ ...settlement, moves: [...settlement.moves], times: [...times.value], fingerprint, today: today.toString(), aside, stopped: watch.isStopped });
    const now = await possibleGround(who, span);
    if (now.fingerprint !== fingerprint && round < MOST_ROUNDS) {
      ({ fingerprint, today, aside, ground } = now);
      forbids = [];
      continue;
    }
    const refused = refusedPlaces(ground, settlement.moves, times.problems);
    if (round === MOST_ROUNDS || refused.length === 0) return refuse({ code: "no-hours", message: `No plan of this season could be placed to the hour. ${times.problems[0].message}` });
    const late = new Set(round < PATIENCE ? [] : refused.map(({ runId }) => runId).filter((id) => ground.runs.some(({ runId, firmness }) => runId === id && firmness === "ask")));
    aside.push(...times.problems.flatMap(({ message, data }) => (late.has(String(data?.["runId"])) ? [`${titleIn(ground, data?.["runId"])}: ${message}`] : [])));
    ground = without(ground, late);
    forbids = [...forbids, ...refused.filter(({ runId }) => !late.has(runId))];
  }
}

type PossibleGround = { readonly fingerprint: string; readonly today: Temporal.PlainDate; readonly ground: ClashGround; readonly aside: string[] };

/** What may be settled in the season as it is now; what by itself has no place in it is left out and said. */
async function possibleGround(who: Who, span: SeasonSpan): Promise<PossibleGround> {
  const { ground, aside, fingerprint, today } = await clashGround(who, span);
  const impossible = ground.runs.filter(({ firmness }) => firmness === "ask").flatMap((run) => {
    const [fault] = dayProblemFaults(clashProblem({ ...ground, runs: [run] }, NO_WISHES, DEFAULT_WEIGHTS));
    return fault === undefined ? [] : [{ run, message: fault.message }];
  });
  return { fingerprint, today, ground: without(ground, new Set(impossible.map(({ run }) => run.runId))), aside: [...aside, ...impossible.map(({ message }) => message)] };
}

function without(ground: ClashGround, runIds: ReadonlySet<string>): ClashGround {
  return runIds.size === 0 ? ground : { ...ground, runs: ground.runs.filter(({ runId }) => !runIds.has(runId)) };
}

/** The asks that found no place; none where a booked run is among what found none. */
function missingAsks({ runs }: ClashGround, { placements, leftOut }: DaysPlan): ReadonlySet<string> {
  if (leftOut === 0) return new Set();
  const placed = new Set(placements.map(({ job }) => job));
  const missing = runs.filter((_, job) => !placed.has(job));
  return new Set(missing.every(({ firmness }) => firmness === "ask") ? missing.map(({ runId }) => runId) : []);
}

function titleIn({ runs }: ClashGround, id: unknown): string {
  return runs.find(({ runId }) => runId === id)?.title ?? "An ask";
}
