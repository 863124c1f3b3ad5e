import { Temporal } from "temporal-polyfill";
import { takenByRun, withoutRuns, withRun } from "@/lib/domain/booking/calendar-change";
import { findClashes, type Clash, type ClashState } from "@/lib/domain/booking/clash";
import { runAt } from "@/lib/domain/booking/run-at";
import { MAX_DAYS_FROM_STEAM_TO_LOAD } from "@/lib/domain/booking/run-plan";
import { sharedRunAt } from "@/lib/domain/booking/shared-run";
import type { TakenCalendar } from "@/lib/domain/booking/taken-calendar";
import { ok, refusalOf, refuse, type Outcome, type Problem } from "@/lib/domain/refusal";
import { MS_PER_DAY } from "@/lib/domain/time/interval";
import { showTime } from "@/lib/domain/time/show-time";
import type { Reading } from "@/lib/server/query";
import { kilnOf } from "@/lib/server/rows/kiln-of";
import { readMovingRuns, type MovingAsk, type MovingFiring } from "@/lib/server/rows/moving-runs";
import { loadCalendar } from "@/lib/server/rows/taken-calendar";
import { mayChangeRun } from "@/lib/server/runs/may-change";
import { loadRunQuestion, whoseTime } from "@/lib/server/runs/run-question";
import { inThePast, type Placed } from "@/lib/server/runs/place-run";
import { afterMove, kwOf, namedTime, standingTaken } from "@/lib/server/ways-out/moved-state";
import { toBePlaced, type ToBePlaced } from "@/lib/server/ways-out/to-be-placed";
import { placingGround } from "@/lib/server/ways-out/placing-ground";

/** Where a run of a settlement goes: its door closes no sooner than `from` and no later than `until`. */
export type WantedMove = { readonly runId: string; readonly isAsk: boolean; readonly kilnId: string; readonly from: Temporal.Instant; readonly until: Temporal.Instant };

/** A run with the place that was found for it: one that stands, or an ask. */
export type PlacedMove = { readonly move: WantedMove; readonly placed: Placed; readonly moving: MovingFiring | null; readonly ask: MovingAsk | null };

type Placing = {
  /** All that stands, as it was read in this transaction, and what of it clashes. */
  readonly state: ClashState;
  readonly clashes: readonly Clash[];
  readonly reason: string;
  /** Goes on after a move that cannot be made, so that every such one is said. */
  readonly findAll?: boolean;
};

/** What a transaction that places, or makes, so many moves may take, in milliseconds: a move takes some thousandths of a second, and more where the machine is busy. */
export function timeFor(moves: number): number {
  return 20_000 + 200 * moves;
}

/**
 * Places all moves of a settlement, in their order, on the calendar as it is now, or refuses; nothing is written. What
 * moves gives up its places first, so that runs may change places with each other; then each is placed by the search
 * that places every run, to the quarter hour. At the end the clash search looks over the whole calendar, and nothing
 * may clash that did not before. A problem's data says by `runId` which move it is about.
 */
export async function placeMoves(ctx: Reading, moves: readonly WantedMove[], { state, clashes, reason, findAll = false }: Placing): Promise<Outcome<readonly PlacedMove[]>> {
  const read = await readMovingRuns(ctx.tx, moves, ctx.now);
  if (!read.ok) return read;
  const { firings, asks } = read.value;
  for (const { firing } of firings.values()) {
    const refusal = mayChangeRun(ctx, firing, { version: firing.version, reason }, { does: "moves this firing", happens: "it moves" });
    if (refusal) return refusal;
  }
  const ground = await placingGround(ctx);
  const givenUp = [...firings.values()].map((moving) => standingTaken(state, moving));
  let after: ClashState = { ...state, runs: state.runs.filter(({ firingId }) => !firings.has(firingId)) };
  let calendar = withoutRuns(await loadCalendar(ctx.tx, ctx.now), givenUp);
  const done: PlacedMove[] = [];
  const problems: Problem[] = [];
  for (const move of moves) {
    // Requests of others are not kept waiting for all of it.
    await new Promise((resolve) => setImmediate(resolve));
    const found = { moving: firings.get(move.runId) ?? null, ask: asks.get(move.runId) ?? null };
    const wanted = await toBePlaced(ctx, ground, move, found);
    const placed = wanted.ok ? await placeWithin(ctx, inTime(move, found.moving), wanted.value, { calendar, after }) : wanted;
    if (placed.ok) {
      calendar = withRun(calendar, takenByRun(placed.value.run, kwOf(state, move.kilnId)));
      after = afterMove(state, after, found, placed.value);
      done.push({ move, placed: placed.value, ...found });
      continue;
    }
    const [first, ...rest] = placed.problems;
    const problem = { ...first, data: { ...first.data, runId: move.runId } };
    if (!findAll) return refuse(problem, ...rest);
    problems.push(problem);
  }
  const refused = refusalOf(problems);
  if (refused !== undefined) return refused;
  return freshClash(clashes, after, moves) ?? ok(done);
}

/** A mould that is steamed already waits no longer for its kiln than any, or than it would have where it stands; so long at most a move may be put off. */
function inTime(move: WantedMove, moving: MovingFiring | null): WantedMove {
  const ends = [...(moving?.steamed.values() ?? [])].map(({ epochMilliseconds }) => epochMilliseconds);
  const stood = moving === null ? undefined : kilnOf(moving.firing)?.startsAt.getTime();
  if (ends.length === 0 || stood === undefined) return move;
  const latest = Math.max(Math.min(...ends) + MAX_DAYS_FROM_STEAM_TO_LOAD * MS_PER_DAY, stood) + MS_PER_DAY;
  return latest < move.until.epochMilliseconds ? { ...move, until: Temporal.Instant.fromEpochMilliseconds(latest) } : move;
}

type Scene = { readonly calendar: TakenCalendar; readonly after: ClashState };

/** At the first instant that will do; every refusal names the next one, if there is any. */
async function placeWithin(ctx: Reading, { from, until, kilnId }: WantedMove, wanted: ToBePlaced, scene: Scene): Promise<Outcome<Placed>> {
  const past = inThePast(ctx, from);
  if (past !== undefined) return past;
  if (Temporal.Instant.compare(from, until) > 0) return refuse({ code: "steamed-too-long", field: "kilnFrom", value: from.toString(), message: `The mould is steamed out already and waits ${MAX_DAYS_FROM_STEAM_TO_LOAD} days for its kiln at most: it must be loaded before ${showTime(until, ctx.who.timeZone)}.` });
  const { plan, planInput, kiln, ground, shared } = wanted;
  const question = await loadRunQuestion(ctx.tx, ctx.who, { ...wanted.asked, ground, equipment: ground.equipment, calendar: scene.calendar });
  const at = (kilnFrom: Temporal.Instant, asked = question) => (shared === null ? runAt(asked, kilnId, kilnFrom) : sharedRunAt(asked, plan, kilnId, kilnFrom, shared));
  const first = at(from);
  const named = first.ok ? undefined : first.problems[0].data?.["nextKilnStart"];
  const later = typeof named === "string" ? Temporal.Instant.from(named) : undefined;
  const next = later !== undefined && Temporal.Instant.compare(later, until) <= 0 ? later : undefined;
  const run = first.ok || next === undefined ? first : at(next);
  if (run.ok) return ok({ run: run.value, plan, planInput, kiln });
  // Once more, knowing who is in the way.
  const whose = namedTime(scene.after, whoseTime(ground.equipment, kiln, next ?? from, plan));
  const said = at(next ?? from, { ...question, busy: [...question.busy, ...whose.busy], heaters: whose.heating });
  return said.ok ? run : said;
}

function freshClash(before: readonly Clash[], after: ClashState, moves: readonly WantedMove[]): Outcome<never> | undefined {
  const known = new Set(before.map(({ key }) => key));
  const fresh = findClashes(after).find(({ key }) => !known.has(key));
  if (fresh === undefined) return undefined;
  const part = moves.find(({ runId }) => fresh.firingIds.includes(runId)) ?? moves[0];
  return refuse({ code: "would-clash", message: `Something new would clash. ${fresh.sentence}`, data: { runId: part?.runId } });
}
