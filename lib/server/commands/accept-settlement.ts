import { Temporal } from "temporal-polyfill";
import { acceptSettlementSchema } from "@/lib/contracts/ways-out";
import { ok, refuse } from "@/lib/domain/refusal";
import { command } from "@/lib/server/command";
import { loadClashGround } from "@/lib/server/rows/clash-ground";
import { lockCalendar } from "@/lib/server/runs/lock-calendar";
import { carryOut } from "@/lib/server/ways-out/carry-out";

/** Makes every move of one way out together, or none: not when anything it was made from has changed. */
export const acceptSettlement = command({
  name: "accept-settlement",
  needs: "settle-clashes",
  input: acceptSettlementSchema,
  once: ({ requestKey }) => requestKey,
  run: async (ctx, { moves, fingerprint, reason }) => {
    await lockCalendar(ctx);
    const loaded = await loadClashGround(ctx);
    if (loaded.fingerprint !== fingerprint) return refuse(CHANGED_MEANWHILE);
    const wanted = moves.map(({ runId, kilnId, kilnFrom }) => {
      const at = Temporal.Instant.from(kilnFrom);
      return { runId, isAsk: loaded.ground.runs.some((run) => run.runId === runId && run.firmness === "ask"), kilnId, from: at, until: at };
    });
    const unknown = moves.find(({ runId }) => !loaded.ground.runs.some((run) => run.runId === runId));
    if (unknown !== undefined) return refuse({ code: "not-found", field: "moves", value: unknown.runId, message: "A run of this way out may not be moved, or is not there any more." });
    const done = await carryOut(ctx, wanted, reason);
    if (!done.ok) return done;
    await ctx.audit({ subject: "workshop", subjectId: ctx.who.workshopId, after: { settled: done.value }, reason });
    return ok({ moved: done.value });
  },
  onConstraint: (constraint) => Promise.resolve(constraint === "booking_no_overlap" ? CHANGED_MEANWHILE : undefined),
});

const CHANGED_MEANWHILE = {
  code: "changed-meanwhile",
  field: "fingerprint",
  message: "The calendar has changed since these ways out were worked out. Nothing was moved; look at the new ones.",
};
