import { NO_WISHES } from "@/lib/domain/settling/clash/clash-ground";
import { seasonInSlots } from "@/lib/domain/settling/clash/season-slots";
import { problemFor, settlementFrom } from "@/lib/domain/settling/clash/settle-clash";
import type { Settlement } from "@/lib/domain/settling/clash/settlement";
import { DEFAULT_WEIGHTS } from "@/lib/domain/settling/clash/weights";
import { ok, type Outcome } from "@/lib/domain/refusal";
import { showDate } from "@/lib/domain/time/show-time";
import type { SeasonRound } from "@/lib/server/replan/season-round";
import type { SeasonWatch } from "@/lib/server/replan/season-watch";
import { settleInWorker } from "@/lib/server/settling/settle-in-worker";
import type { DaysPlan } from "@/lib/server/settling/settle-task";

/** A plan's days are told apart in so many parts: a morning, a noon and so on; a bound's are not, so that it is proven sooner. */
const PARTS = { plan: 4, bound: 1 } as const;
/** The first search gets this share of the time that is left; every other one, without what the hours refused, half of it. */
const [FIRST_SHARE, SHARE] = [0.85, 0.5];
const LEAST_SECONDS = 2;

export type RoundSearch = { readonly watch: SeasonWatch; readonly iterations: number | null; readonly endsAtMs: number };

/** The best plan a round's search found, and the best bound of its runs; or the asks for which it found no place. */
export type FoundRound = { readonly settled: Settlement; readonly missing?: undefined; readonly bound: number } | { readonly settled?: undefined; readonly missing: ReadonlySet<string>; readonly bound: number };

/** Settles what a round begins with, in parts of days that the hours allow, beside a bound that they cannot go below. */
export async function settleRound(round: SeasonRound, { watch, iterations, endsAtMs }: RoundSearch): Promise<Outcome<FoundRound>> {
  const { ground, number, forbids } = round;
  const sayDay = (day: number): string => showDate(round.today.add({ days: day }));
  const possible = problemFor(ground, NO_WISHES, DEFAULT_WEIGHTS, "season", sayDay);
  if (!possible.ok) return possible;
  const problem = seasonInSlots(round, PARTS.plan, "plan", forbids);
  const least = seasonInSlots(round, PARTS.bound, "bound");
  const share = ((number === 1 ? FIRST_SHARE : SHARE) * (endsAtMs - Date.now())) / 1000;
  const running = settleInWorker({ kind: "days", problem, least, seed: 1, iterations }, watch.isStopped ? LEAST_SECONDS : Math.max(LEAST_SECONDS, share), (progress, plan) => watch.found(ground, problem, plan, progress));
  watch.searching(ground, running.stop);
  const { plan, bound: proven } = await running.result;
  const bound = Math.max(round.bound, least === undefined ? 0 : proven);
  const missing = missingAsks(round, plan as DaysPlan);
  if (missing.size > 0) return ok({ missing, bound });
  const settled = settlementFrom(ground, "season", problem, plan as DaysPlan, bound, sayDay);
  return settled.ok ? ok({ settled: settled.value, bound }) : settled;
}

/** The asks that found no place; none where a booked run is among what found none, for then there is no plan. */
function missingAsks({ ground: { runs } }: SeasonRound, { placements, leftOut }: DaysPlan): ReadonlySet<string> {
  if (leftOut === 0) return new Set();
  const placed = new Set(placements.map(({ job }) => job));
  const missing = runs.filter((_, job) => !placed.has(job));
  return new Set(missing.every(({ firmness }) => firmness === "ask") ? missing.map(({ runId }) => runId) : []);
}
