import type { Temporal } from "temporal-polyfill";
import type { SeasonPlan } from "@/lib/contracts/replan";
import { NO_WISHES, type ClashGround, type Forbid, type MovableRun } from "@/lib/domain/settling/clash/clash-ground";
import { clashProblem } from "@/lib/domain/settling/clash/clash-problem";
import type { SeasonSpan } from "@/lib/domain/settling/clash/season";
import { problemFor, settlementFrom } from "@/lib/domain/settling/clash/settle-clash";
import { DEFAULT_WEIGHTS } from "@/lib/domain/settling/clash/weights";
import { percentAbove, type Settlement } from "@/lib/domain/settling/clash/settlement";
import type { DayProblem } from "@/lib/domain/settling/days/day-problem";
import { dayProblemFaults } from "@/lib/domain/settling/days/day-problem-faults";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { showDate } from "@/lib/domain/time/show-time";
import { query } from "@/lib/server/query";
import { settleInWorker, type RunningSettlement } from "@/lib/server/settling/settle-in-worker";
import type { DaysPlan } from "@/lib/server/settling/settle-task";
import type { SeasonWatch } from "@/lib/server/replan/season-watch";
import { placeSeason } from "@/lib/server/replan/place-season";
import { refusedPlaces } from "@/lib/server/ways-out/wanted-moves";
import { clashGround } from "@/lib/server/ways-out/ways-out";
import type { Who } from "@/lib/server/who";

export type SeasonSearch = { readonly who: Who; readonly span: SeasonSpan; readonly seconds: number; readonly iterations?: number | null; readonly watch: SeasonWatch };

/** The first search gets this share of the time, in which the bound is proven; every other one, without what the hours refused, half of what is left. */
const FIRST_SHARE = 0.4;
const LEAST_SECONDS = 2;
const MOST_ROUNDS = 8;
/** From this round on an ask that finds no hours is left waiting, where before only its place was ruled out. */
const PATIENCE = 5;

/**
 * Plans a whole season anew: every ask and every run that may move, settled in days in threads of their own, then tried
 * out to the quarter hour; what the hours refuse is ruled out and it is settled again. An ask that cannot be placed
 * stays waiting and is said; a booked run that cannot is a refusal. Where the calendar has changed meanwhile so that the
 * plan cannot stand, it begins again from what is there now. When the watch says stop, it ends with the best so far.
 */
export async function planSeason({ who, span, seconds, iterations = null, watch }: SeasonSearch): Promise<Outcome<SeasonPlan>> {
  const endsAtMs = Date.now() + seconds * 1000;
  let changeAt = await lastChange(who, undefined);
  let { fingerprint, today, aside, ground } = await possibleGround(who, span);
  let { forbids, roomy } = NOTHING_REFUSED;
  let proven: { readonly runs: number; readonly bound: number } | undefined;
  const sayDay = (day: number): string => showDate(today.add({ days: day }));
  const search = (problem: DayProblem, within: ClashGround, share: number): RunningSettlement =>
    settleInWorker({ kind: "days", problem, seed: 1, iterations }, watch.isStopped ? LEAST_SECONDS : Math.max(LEAST_SECONDS, share), ({ cost, bound }, plan) => watch.found(within, plan, { cost, bound }));
  for (let round = 1; ; round++) {
    const roomyGround = withDayMore(ground, roomy);
    const problem = problemFor(roomyGround, { ...NO_WISHES, forbids }, DEFAULT_WEIGHTS, "season");
    if (!problem.ok) return problem;
    const running = search(problem.value, roomyGround, round === 1 ? FIRST_SHARE * seconds : (endsAtMs - Date.now()) / 2000);
    watch.searching(ground, running.stop);
    const { plan, bound } = await running.result;
    if (watch.isGone) return refuse({ code: "gone", message: "Another process computes this." });
    if (forbids.length === 0 && roomy.size === 0) proven = { runs: ground.runs.length, bound };
    const missing = missingAsks(ground, plan as DaysPlan);
    if (missing.size > 0 && round < MOST_ROUNDS) {
      aside.push(...ground.runs.filter(({ runId }) => missing.has(runId)).map(({ title }) => `${title}: no place was found before ${sayDay(problem.value.horizon - 1)}.`));
      ground = without(ground, missing);
      continue;
    }
    const settled = settlementFrom(roomyGround, "season", problem.value, plan as DaysPlan, bound, sayDay);
    if (!settled.ok) return settled;
    await watch.placing();
    const placed = await placeSeason(who, ground, settled.value, today);
    if (placed.ok) {
      if (proven?.runs !== ground.runs.length) proven = { runs: ground.runs.length, bound: await boundOf(ground, search) };
      const { placements: _days, aim: _aim, moves, ...settlement } = withBound(placed.value.settlement, proven.bound);
      return ok({ ...settlement, moves: [...moves], times: [...placed.value.times], fingerprint, today: today.toString(), aside, stopped: watch.isStopped });
    }
    const { problems } = placed;
    const nowAt = await lastChange(who, undefined);
    if (nowAt !== changeAt && round < MOST_ROUNDS) {
      changeAt = nowAt;
      ({ fingerprint, today, aside, ground } = await possibleGround(who, span));
      ({ forbids, roomy } = NOTHING_REFUSED);
      proven = undefined;
      continue;
    }
    const refused = refusedPlaces(ground, settled.value.moves, problems);
    if (round === MOST_ROUNDS || refused.length === 0) return refuse({ code: "no-hours", message: `No plan of this season could be placed to the hour. ${problems[0].message}` });
    const late = new Set(round < PATIENCE ? [] : refused.map(({ runId }) => runId).filter((id) => ground.runs.some(({ runId, firmness }) => runId === id && firmness === "ask")));
    aside.push(...problems.flatMap(({ message, data }) => (late.has(String(data?.["runId"])) ? [`${titleIn(ground, data?.["runId"])}: ${message}`] : [])));
    ground = without(ground, late);
    forbids = [...forbids, ...refused.filter(({ runId }) => !late.has(runId))];
    roomy = new Set([...roomy, ...refused.map(({ kilnId }) => kilnId ?? "")]);
  }
}

type Refused = { readonly forbids: readonly Forbid[]; /** Kilns on which the hours refused something. */ readonly roomy: ReadonlySet<string> };
const NOTHING_REFUSED: Refused = { forbids: [], roomy: new Set() };

/** What no plan of these runs can cost less than, whatever the hours refuse; 0 where that is not known. */
async function boundOf(ground: ClashGround, search: (problem: DayProblem, within: ClashGround, share: number) => RunningSettlement): Promise<number> {
  const problem = problemFor(ground, NO_WISHES, DEFAULT_WEIGHTS, "season");
  return problem.ok ? (await search(problem.value, ground, LEAST_SECONDS).result).bound : 0;
}

function withBound(settlement: Settlement, proven: number): Settlement {
  const bound = Math.min(proven, settlement.cost);
  return { ...settlement, bound, atMostPercent: percentAbove(settlement.cost, bound) };
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

/**
 * The hours of a day often have no room for an unload, the next load and what lies between them: on a kiln where they
 * refused something, all that comes there is counted a day longer from now on. What stands there is as long as it is booked.
 */
function withDayMore(ground: ClashGround, kilnIds: ReadonlySet<string>): ClashGround {
  const longer = (run: MovableRun): Record<string, number> =>
    Object.fromEntries(Object.entries(run.daysByKiln).map(([kilnId, days]) => [kilnId, days > 0 && kilnIds.has(kilnId) && kilnId !== run.standing?.kilnId ? days + 1 : days]));
  return { ...ground, runs: ground.runs.map((run) => ({ ...run, daysByKiln: longer(run) })) };
}

/** Every change leaves a row in the record; the newest says whether there was one. */
const lastChange = query<undefined, bigint>({
  name: "last-change",
  needs: "settle-clashes",
  run: async ({ tx }) => (await tx.audit.findFirst({ orderBy: { auditId: "desc" }, select: { auditId: true } }))?.auditId ?? 0n,
});

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
