import type { SeasonPlan } from "@/lib/contracts/replan";
import type { SeasonSpan } from "@/lib/domain/settling/clash/season";
import { percentAbove, type Settlement } from "@/lib/domain/settling/clash/settlement";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { query } from "@/lib/server/query";
import { placeSeason } from "@/lib/server/replan/place-season";
import { possibleSeason } from "@/lib/server/replan/possible-season";
import type { SeasonWatch } from "@/lib/server/replan/season-watch";
import { anew, firstRound, lastRound, seasonOf, withoutMissing, withoutRefused, type SeasonRound } from "@/lib/server/replan/season-round";
import { settleRound } from "@/lib/server/replan/settle-round";
import type { Who } from "@/lib/server/who";

export type SeasonSearch = { readonly who: Who; readonly span: SeasonSpan; readonly seconds: number; readonly iterations?: number | null; readonly watch: SeasonWatch };

/**
 * Plans a whole season anew: every ask and every run that may move, settled in parts of days in threads of their own,
 * then tried out to the quarter hour; what the hours refuse is ruled out and it is settled again. An ask that cannot be
 * placed stays waiting and is said; a booked run that cannot is a refusal. Where the calendar has changed meanwhile so
 * that the plan cannot stand, it begins again from what is there now. When the watch says stop, it ends with the best so
 * far.
 */
export async function planSeason(asked: SeasonSearch): Promise<Outcome<SeasonPlan>> {
  const endsAtMs = Date.now() + asked.seconds * 1000;
  let turn: Turn = { next: firstRound(await lastChange(asked.who, undefined), await possibleSeason(asked.who, asked.span)) };
  while (!("done" in turn)) turn = await takeRound(asked, turn.next, endsAtMs);
  return turn.done;
}

type Turn = { readonly done: Outcome<SeasonPlan> } | { readonly next: SeasonRound };

/** Settles and tries out once: that is the plan, or what the next round is to know. */
async function takeRound({ who, span, iterations = null, watch }: SeasonSearch, round: SeasonRound, endsAtMs: number): Promise<Turn> {
  const found = await settleRound(round, { watch, iterations, endsAtMs });
  if (!found.ok) return { done: found };
  if (watch.isGone) return { done: refuse({ code: "gone", message: "Another process computes this." }) };
  const { settled, missing, bound } = found.value;
  if (missing !== undefined) return { next: withoutMissing(round, missing) };
  await watch.placing();
  const placed = await placeSeason(who, round, settled, round.today);
  if (placed.ok) return { done: ok({ ...withBound(placed.value.settlement, bound), times: [...placed.value.times], ...seasonOf(round), stopped: watch.isStopped }) };
  if (lastRound(round)) return { done: refuse({ code: "no-hours", message: `No plan of this season could be placed to the hour. ${placed.problems[0].message}` }) };
  const changeAt = await lastChange(who, undefined);
  if (changeAt !== round.changeAt) return { next: anew(round, changeAt, await possibleSeason(who, span)) };
  return { next: withoutRefused(round, settled.moves, placed.problems, bound) };
}

/** As it is kept: with what is proven of it, and without the days that only the search goes by. */
function withBound({ placements: _days, aim: _aim, moves, ...settlement }: Settlement, proven: number) {
  const bound = Math.min(proven, settlement.cost);
  return { ...settlement, moves: [...moves], bound, atMostPercent: percentAbove(settlement.cost, bound) };
}

/** Every change leaves a row in the record; the newest says whether there was one. */
const lastChange = query<undefined, bigint>({
  name: "last-change",
  needs: "settle-clashes",
  run: async ({ tx }) => (await tx.audit.findFirst({ orderBy: { auditId: "desc" }, select: { auditId: true } }))?.auditId ?? 0n,
});
