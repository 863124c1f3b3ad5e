import { z } from "zod";
import { can } from "@/lib/domain/access/roles";
import { ok, refuse } from "@/lib/domain/refusal";
import { toDate } from "@/lib/server/clock";
import { command, NOT_ALLOWED } from "@/lib/server/command";
import { SHEET_CLOSED } from "@/lib/server/commands/answer-check";
import { isIn } from "@/lib/server/rows/in-firing";
import { lockFiring, NO_SUCH_FIRING } from "@/lib/server/rows/lock-firing";

/** Closes the check sheet of an opened firing; from then on nothing on it can change, for anybody. */
export const closeSheet = command({
  name: "close-sheet",
  needs: "tick-checks",
  input: z.strictObject({ firingId: z.uuid() }),
  run: async (ctx, { firingId }) => {
    const { tx, who, now } = ctx;
    const firing = await lockFiring(tx, firingId);
    if (firing === null) return refuse(NO_SUCH_FIRING);
    if (!isIn(firing, who.memberId) && !can(who.roles, "manage-runs")) return refuse(NOT_ALLOWED);
    if (firing.status !== "opened") {
      return refuse({ code: "wrong-status", message: `The sheet is closed when the firing has been opened; this one is ${firing.status}.` });
    }
    const closed = await tx.checkSheet.updateMany({
      where: { firingId, closedAt: null },
      data: { closedAt: toDate(now), closedBy: who.memberId },
    });
    if (closed.count === 0) return refuse(SHEET_CLOSED);
    await ctx.audit({ subject: "check-sheet", subjectId: firingId, after: { closed: true } });
    return ok({ firingId });
  },
  onConstraint: async (constraint) => (constraint === "check_sheet_is_open" ? SHEET_CLOSED : undefined),
});
