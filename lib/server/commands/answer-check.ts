import { z } from "zod";
import { ok, refuse } from "@/lib/domain/refusal";
import { mayAnswer } from "@/lib/domain/safety/answer-check";
import { toDate } from "@/lib/server/clock";
import { command } from "@/lib/server/command";
import { loadCheckSheet } from "@/lib/server/rows/check-sheet";

const input = z.strictObject({
  firingId: z.uuid(),
  code: z.string().min(1).max(20),
  kind: z.enum(["tick", "untick", "override"]),
  reason: z.string().trim().max(1000).optional(),
});

export const SHEET_CLOSED = { code: "sheet-closed", message: "This check sheet is closed; nothing on it can change." };

/** Ticks an item, takes a tick back, or (manager) overrides it with a reason. Adds a line; changes none. */
export const answerCheck = command({
  name: "answer-check",
  needs: "tick-checks",
  input,
  run: async (ctx, { firingId, code, kind, reason }) => {
    const { who, tx, now } = ctx;
    await tx.$executeRaw`SELECT 1 FROM check_sheet WHERE firing_id = ${firingId}::uuid FOR UPDATE`;
    const sheet = await loadCheckSheet(tx, firingId);
    if (sheet === null) return refuse({ code: "not-found", message: "There is no such firing in this workshop.", field: "firingId" });
    const given = reason === undefined || reason === "" ? {} : { reason };
    const allowed = mayAnswer(sheet, { code, kind, byMemberId: who.memberId, at: now, ...given }, who.roles);
    if (!allowed.ok) return allowed;
    await tx.checkAnswer.create({
      data: { workshopId: who.workshopId, firingId, code, kind, memberId: who.memberId, at: toDate(now), ...given },
    });
    await ctx.audit({ subject: "check-item", subjectId: `${firingId}/${code}`, after: { kind }, ...given });
    return ok({ code, kind });
  },
  onConstraint: async (constraint) => (constraint === "check_sheet_is_open" ? SHEET_CLOSED : undefined),
});
