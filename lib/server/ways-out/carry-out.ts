import { Temporal } from "temporal-polyfill";
import { findClashes } from "@/lib/domain/booking/clash";
import { ok, refusalOf, refuse, type Outcome, type Problem } from "@/lib/domain/refusal";
import { toInstant } from "@/lib/server/clock";
import type { Ctx } from "@/lib/server/command";
import { steamOutEnds } from "@/lib/server/joining/place-shared";
import { loadClashState } from "@/lib/server/rows/clash-state";
import { titleOf } from "@/lib/server/rows/firing-title";
import { othersIn } from "@/lib/server/rows/in-firing";
import { kilnOf } from "@/lib/server/rows/kiln-of";
import { lockFiring, type LockedFiring } from "@/lib/server/rows/lock-firing";
import { mayChangeRun } from "@/lib/server/runs/may-change";
import { placeFiring, writeMoved } from "@/lib/server/runs/move-firing";
import { lockOpenAsk } from "@/lib/server/runs/open-ask";
import { openFiring } from "@/lib/server/runs/open-firing";

/** Where a run of a settlement goes: its door closes no sooner than `from` and no later than `until`. */
export type WantedMove = { readonly runId: string; readonly isAsk: boolean; readonly kilnId: string; readonly from: Temporal.Instant; readonly until: Temporal.Instant };
export type CarriedOut = { readonly runId: string; readonly kilnId: string; readonly kilnFrom: string; readonly kilnTo: string };

/** A move as it was made, for the record: of which firing, where it stood before, and who was told of it. */
export type MadeMove = CarriedOut & {
  readonly firingId: string;
  readonly title: string;
  readonly from: { readonly kilnId: string; readonly kilnFrom: string } | null;
  readonly told: readonly string[];
};

export type Carrying = {
  readonly reason: string;
  /** Where those who are told may look. */
  readonly href: string;
  /** Goes on after a move that cannot be made, so that every such one is said; for a trial, of which nothing stays. */
  readonly findAll?: boolean;
};

/** What a transaction that makes so many moves may take, in milliseconds: a move takes a few hundredths of a second, and as much again where the machine is busy. */
export function timeFor(moves: number): number {
  return 20_000 + 500 * moves;
}

/**
 * Makes all moves of a settlement, in their order, or refuses: what moves gives up its places first, so that runs may
 * change places with each other; then each is placed by the search that places every run, to the quarter hour. At
 * the end the clash search looks over the whole calendar, and nothing may clash that did not before. A problem's data
 * says by `runId` which move it is about.
 */
export async function carryOut(ctx: Ctx, moves: readonly WantedMove[], carrying: Carrying): Promise<Outcome<readonly MadeMove[]>> {
  const before = new Set(findClashes(await loadClashState(ctx.tx, ctx.who, ctx.now)).map(({ key }) => key));
  const firings = new Map<string, LockedFiring>();
  for (const { runId, isAsk } of moves.toSorted((a, b) => (a.runId < b.runId ? -1 : 1))) {
    const firing = isAsk ? null : await lockFiring(ctx.tx, runId);
    if (firing === null) continue;
    const refusal = mayChangeRun(ctx, firing, { version: firing.version, reason: carrying.reason }, { does: "moves this firing", happens: "it moves" });
    if (refusal) return refusal;
    firings.set(runId, firing);
  }
  for (const firing of firings.values()) await giveUpPlaces(ctx, firing);
  const done: MadeMove[] = [];
  const problems: Problem[] = [];
  for (const move of moves) {
    const made = await makeMove(ctx, move, firings.get(move.runId), carrying);
    if (made.ok) done.push(made.value);
    else if (carrying.findAll === true) problems.push(made.problems[0]);
    else return made;
  }
  const refused = refusalOf(problems);
  if (refused !== undefined) return refused;
  const fresh = findClashes(await loadClashState(ctx.tx, ctx.who, ctx.now)).find(({ key }) => !before.has(key));
  if (fresh === undefined) return ok(done);
  const part = moves.find(({ runId }) => fresh.firingIds.includes(runId)) ?? moves[0];
  return refuse({ code: "would-clash", message: `Something new would clash. ${fresh.sentence}`, data: { runId: part?.runId } });
}

async function giveUpPlaces({ tx, now }: Ctx, firing: LockedFiring): Promise<void> {
  const stays = [...steamOutEnds(firing, now).keys()];
  const kept = firing.bookings.filter(({ purpose, castingId }) => purpose === "steam-out" && stays.includes(castingId ?? firing.plan.castingId)).map(({ bookingId }) => bookingId);
  const steamLifts = { what: { in: ["to-steamer", "from-steamer"] }, castingId: { in: stays } };
  await tx.booking.updateMany({ where: { firingId: firing.firingId, standing: true, bookingId: { notIn: kept } }, data: { standing: false } });
  await tx.lift.updateMany({ where: { firingId: firing.firingId, standing: true, NOT: steamLifts }, data: { standing: false } });
}

async function makeMove(ctx: Ctx, move: WantedMove, firing: LockedFiring | undefined, { reason, href }: Carrying): Promise<Outcome<MadeMove>> {
  const { runId, kilnId } = move;
  if (move.isAsk) return bookAsked(ctx, move, { reason, href });
  if (firing === undefined) return refuse({ code: "not-found", field: "moves", message: "A run of this way out is not there any more.", data: { runId } });
  const placed = await within(move, (kilnFrom) => placeFiring(ctx, firing, { kilnId, kilnFrom: kilnFrom.toString() }));
  if (!placed.ok) return placed;
  await writeMoved(ctx, firing, placed.value, reason, href);
  const stood = kilnOf(firing);
  const from = stood === undefined ? null : { kilnId: stood.equipmentId, kilnFrom: toInstant(stood.startsAt).toString() };
  const { kilnFrom, kilnTo } = placed.value.run;
  return ok({ runId, kilnId, kilnFrom: kilnFrom.toString(), kilnTo: kilnTo.toString(), firingId: runId, title: titleOf(firing.plan), from, told: othersIn(firing, ctx.who.memberId) });
}

async function bookAsked(ctx: Ctx, move: WantedMove, said: Carrying): Promise<Outcome<MadeMove>> {
  const { runId, kilnId } = move;
  const ask = await lockOpenAsk(ctx.tx, runId);
  if (!ask.ok) return ask;
  const { casting, memberId } = ask.value;
  const opened = await within(move, (kilnFrom) => openFiring(ctx, casting, { kilnId, kilnFrom, ...said }));
  if (!opened.ok) return opened;
  const { firingId } = opened.value;
  const kiln = await ctx.tx.booking.findFirstOrThrow({ where: { firingId, purpose: "kiln", standing: true } });
  const [kilnFrom, kilnTo] = [toInstant(kiln.startsAt).toString(), toInstant(kiln.endsAt).toString()];
  return ok({ runId, kilnId, kilnFrom, kilnTo, firingId, title: casting.title, from: null, told: memberId === ctx.who.memberId ? [] : [memberId] });
}

/** At the first instant that will do; every refusal names the next one, if there is any. */
async function within<T>({ runId, from, until }: WantedMove, place: (kilnFrom: Temporal.Instant) => Promise<Outcome<T>>): Promise<Outcome<T>> {
  const first = await place(from);
  if (first.ok) return first;
  const next = first.problems[0].data?.["nextKilnStart"];
  const later = typeof next === "string" ? Temporal.Instant.from(next) : undefined;
  const again = later !== undefined && Temporal.Instant.compare(later, until) <= 0 ? await place(later) : first;
  if (again.ok) return again;
  const [problem, ...rest] = again.problems;
  return refuse({ ...problem, data: { ...problem.data, runId } }, ...rest);
}
