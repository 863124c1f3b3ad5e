import { randomUUID } from "node:crypto";
import { Temporal } from "temporal-polyfill";
import type { z } from "zod";
import { paths } from "@/lib/contracts/paths";
import { acceptSettlementSchema } from "@/lib/contracts/ways-out";
import type { SeasonSpan } from "@/lib/domain/settling/clash/season";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { toPlainDate } from "@/lib/server/clock";
import { command, type Ctx } from "@/lib/server/command";
import { loadClashGround } from "@/lib/server/rows/clash-ground";
import { lockCalendar } from "@/lib/server/runs/lock-calendar";
import { calendarPrint } from "@/lib/server/ways-out/calendar-print";
import { placeMoves, timeFor, type PlacedMove } from "@/lib/server/ways-out/place-moves";
import { verifySettlement } from "@/lib/server/ways-out/verify-settlement";
import { timesOf, writeMoves } from "@/lib/server/ways-out/write-moves";
import { writeSettlement } from "@/lib/server/ways-out/write-settlement";

/**
 * Makes every move of one way out together, or none: not when anything it was made from has changed, nor when its check
 * finds a fault. All is placed before anybody has to wait; behind the locks it is only written, unless something was
 * written meanwhile, and then it is placed again there.
 */
export const acceptSettlement = command({
  name: "accept-settlement",
  needs: "settle-clashes",
  input: acceptSettlementSchema,
  once: ({ requestKey }) => requestKey,
  timeout: ({ moves }) => timeFor(moves.length),
  run: async (ctx, order) => {
    const { kind, replanId, reason } = order;
    const seen = await calendarPrint(ctx.tx);
    const early = await place(ctx, order);
    if (!early.ok) return early;
    await lockCalendar(ctx);
    await lockMoving(ctx, order.moves);
    const placed = (await calendarPrint(ctx.tx, seen)).print === seen.print ? early : await place(ctx, order);
    if (!placed.ok) return placed;
    const settlementId = randomUUID();
    const made = await writeMoves(ctx, placed.value, { reason, href: paths.settlement(settlementId) });
    await writeSettlement(ctx, { settlementId, kind, reason, made });
    if (replanId !== undefined) await ctx.tx.replan.updateMany({ where: { replanId }, data: { settlementId } });
    const objection = await verifySettlement(ctx.tx, settlementId);
    if (objection !== undefined) return objection;
    const moved = placed.value.map((one) => timesOf(one.move.runId, one.placed));
    await ctx.audit({ subject: "workshop", subjectId: ctx.who.workshopId, after: { settlementId, kind, settled: moved }, reason });
    return ok({ settlementId, moved });
  },
  onConstraint: (constraint) => Promise.resolve(constraint === "booking_no_overlap" ? CHANGED_MEANWHILE : undefined),
});

type Order = z.infer<typeof acceptSettlementSchema>;

/** Where all moves go, exactly as they were accepted; refused when the calendar is another one than they were made from. */
async function place(ctx: Ctx, { replanId, moves, fingerprint, reason }: Order): Promise<Outcome<readonly PlacedMove[]>> {
  const span = replanId === undefined ? undefined : await openSeason(ctx, replanId);
  if (span === null) return refuse(NO_SEASON);
  const loaded = await loadClashGround(ctx, span);
  if (loaded.fingerprint !== fingerprint) return refuse(CHANGED_MEANWHILE);
  const runs = new Map(loaded.ground.runs.map((run) => [run.runId, run]));
  const unknown = moves.find(({ runId }) => !runs.has(runId));
  if (unknown !== undefined) return refuse({ code: "not-found", field: "moves", value: unknown.runId, message: "A run of this way out may not be moved, or is not there any more." });
  const wanted = moves.map(({ runId, kilnId, kilnFrom }) => {
    const at = Temporal.Instant.from(kilnFrom);
    return { runId, isAsk: runs.get(runId)?.firmness === "ask", kilnId, from: at, until: at };
  });
  return placeMoves(ctx, wanted, { state: loaded.state, clashes: loaded.clashes, reason });
}

/** In one order, whoever else locks several. */
async function lockMoving({ tx }: Ctx, moves: Order["moves"]): Promise<void> {
  const ids = moves.map(({ runId }) => runId);
  await tx.$executeRaw`SELECT 1 FROM firing WHERE firing_id = ANY (${ids}::uuid[]) ORDER BY firing_id FOR UPDATE`;
  await tx.$executeRaw`SELECT 1 FROM ask WHERE ask_id = ANY (${ids}::uuid[]) ORDER BY ask_id FOR UPDATE`;
}

const NO_SEASON = { code: "not-found", field: "replanId", message: "There is no such plan of a season any more, or it was accepted already." };

/** The days of a re-plan that is there and was not accepted yet; null when there is none. */
async function openSeason({ tx }: Ctx, replanId: string): Promise<SeasonSpan | null> {
  const row = await tx.replan.findFirst({ where: { replanId, state: "ready", settlementId: null } });
  return row === null ? null : { from: toPlainDate(row.fromDay), to: toPlainDate(row.toDay) };
}

const CHANGED_MEANWHILE = {
  code: "changed-meanwhile",
  field: "fingerprint",
  message: "The calendar has changed since these ways out were worked out. Nothing was moved; look at the new ones.",
};
