import { randomUUID } from "node:crypto";
import { Temporal } from "temporal-polyfill";
import { paths } from "@/lib/contracts/paths";
import { acceptSettlementSchema } from "@/lib/contracts/ways-out";
import type { SeasonSpan } from "@/lib/domain/settling/clash/season";
import { ok, refuse } from "@/lib/domain/refusal";
import { toPlainDate } from "@/lib/server/clock";
import { command, type Ctx } from "@/lib/server/command";
import { loadClashGround } from "@/lib/server/rows/clash-ground";
import { lockCalendar } from "@/lib/server/runs/lock-calendar";
import { carryOut, timeFor, type CarriedOut } from "@/lib/server/ways-out/carry-out";
import { verifySettlement } from "@/lib/server/ways-out/verify-settlement";
import { writeSettlement } from "@/lib/server/ways-out/write-settlement";

/** Makes every move of one way out together, or none: not when anything it was made from has changed, nor when its check finds a fault. */
export const acceptSettlement = command({
  name: "accept-settlement",
  needs: "settle-clashes",
  input: acceptSettlementSchema,
  once: ({ requestKey }) => requestKey,
  timeout: ({ moves }) => timeFor(moves.length),
  run: async (ctx, { kind, replanId, moves, fingerprint, reason }) => {
    await lockCalendar(ctx);
    const span = replanId === undefined ? undefined : await openSeason(ctx, replanId);
    if (span === null) return refuse(NO_SEASON);
    const loaded = await loadClashGround(ctx, span);
    if (loaded.fingerprint !== fingerprint) return refuse(CHANGED_MEANWHILE);
    const wanted = moves.map(({ runId, kilnId, kilnFrom }) => {
      const at = Temporal.Instant.from(kilnFrom);
      return { runId, isAsk: loaded.ground.runs.some((run) => run.runId === runId && run.firmness === "ask"), kilnId, from: at, until: at };
    });
    const unknown = moves.find(({ runId }) => !loaded.ground.runs.some((run) => run.runId === runId));
    if (unknown !== undefined) return refuse({ code: "not-found", field: "moves", value: unknown.runId, message: "A run of this way out may not be moved, or is not there any more." });
    const settlementId = randomUUID();
    const made = await carryOut(ctx, wanted, { reason, href: paths.settlement(settlementId) });
    if (!made.ok) return made;
    await writeSettlement(ctx, { settlementId, kind, reason, made: made.value });
    if (replanId !== undefined) await ctx.tx.replan.updateMany({ where: { replanId }, data: { settlementId } });
    const objection = await verifySettlement(ctx.tx, settlementId);
    if (objection !== undefined) return objection;
    const moved = made.value.map(({ runId, kilnId, kilnFrom, kilnTo }): CarriedOut => ({ runId, kilnId, kilnFrom, kilnTo }));
    await ctx.audit({ subject: "workshop", subjectId: ctx.who.workshopId, after: { settlementId, kind, settled: moved }, reason });
    return ok({ settlementId, moved });
  },
  onConstraint: (constraint) => Promise.resolve(constraint === "booking_no_overlap" ? CHANGED_MEANWHILE : undefined),
});

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
