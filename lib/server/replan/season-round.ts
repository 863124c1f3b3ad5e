import type { Forbid } from "@/lib/domain/settling/clash/clash-ground";
import type { Move } from "@/lib/domain/settling/clash/settlement";
import type { Problem } from "@/lib/domain/refusal";
import { showDate } from "@/lib/domain/time/show-time";
import { leaving, type PossibleSeason } from "@/lib/server/replan/possible-season";
import { refusedPlaces } from "@/lib/server/ways-out/wanted-moves";

/** What one round of planning a season begins with. */
export type SeasonRound = PossibleSeason & {
  readonly number: number;
  /** The newest row of the record when the season was read. */
  readonly changeAt: bigint;
  /** Places that the hours have refused. */
  readonly forbids: readonly Forbid[];
  /** What no plan of these runs can cost less than, as far as rounds before have proven. */
  readonly bound: number;
};

const MOST_ROUNDS = 8;
/** From this round on an ask that finds no hours is left waiting, where before only its place was ruled out. */
const PATIENCE = 5;

export function firstRound(changeAt: bigint, season: PossibleSeason): SeasonRound {
  return { ...season, number: 1, changeAt, forbids: [], bound: 0 };
}

export function lastRound({ number }: SeasonRound): boolean {
  return number >= MOST_ROUNDS;
}

/** From what is on the calendar now. */
export function anew(round: SeasonRound, changeAt: bigint, season: PossibleSeason): SeasonRound {
  return { ...firstRound(changeAt, season), number: round.number + 1 };
}

/** The asks for which the search found no place stay waiting. */
export function withoutMissing(round: SeasonRound, missing: ReadonlySet<string>): SeasonRound {
  const { ground, today } = round;
  const last = showDate(today.add({ days: ground.handsOn.length - 1 }));
  return fewer(round, new Map(ground.runs.filter(({ runId }) => missing.has(runId)).map(({ runId, title }) => [runId, `${title}: no place was found before ${last}.`])));
}

/** What the hours refused is ruled out; late in the day, asks among it stay waiting. */
export function withoutRefused(round: SeasonRound, moves: readonly Move[], problems: readonly Problem[], bound: number): SeasonRound {
  const { ground, number } = round;
  const refused = refusedPlaces(ground, moves, problems);
  const asks = new Map(ground.runs.filter(({ firmness }) => firmness === "ask").map(({ runId, title }) => [runId, title]));
  const waiting = new Map(number < PATIENCE ? [] : refused.flatMap(({ runId }) => {
    const [title, problem] = [asks.get(runId), problems.find(({ data }) => data?.["runId"] === runId)];
    return title === undefined || problem === undefined ? [] : [[runId, `${title}: ${problem.message}`]];
  }));
  return { ...fewer({ ...round, bound }, waiting), forbids: [...round.forbids, ...refused.filter(({ runId }) => !waiting.has(runId))] };
}

/** A bound of more runs says nothing about fewer. */
function fewer(round: SeasonRound, why: ReadonlyMap<string, string>): SeasonRound {
  return { ...round, ...leaving(round, why), number: round.number + 1, bound: why.size === 0 ? round.bound : 0 };
}

/** What is kept of the season with its plan. */
export function seasonOf({ fingerprint, today, aside }: SeasonRound) {
  return { fingerprint, today: today.toString(), aside: [...aside] };
}
