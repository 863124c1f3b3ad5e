import { confirmHoldSchema } from "@/lib/contracts/runs";
import { can } from "@/lib/domain/access/roles";
import { refuse } from "@/lib/domain/refusal";
import { command, NOT_ALLOWED } from "@/lib/server/command";
import { lockFiring, NO_SUCH_FIRING } from "@/lib/server/rows/lock-firing";
import { confirmHeld } from "@/lib/server/runs/confirm-held";

/** Makes a held run a booked one. Nothing on the calendar changes: its time was kept free for it. */
export const confirmHold = command({
  name: "confirm-hold",
  needs: "book-runs",
  input: confirmHoldSchema,
  once: ({ requestKey }) => requestKey,
  run: async (ctx, { firingId }) => {
    const firing = await lockFiring(ctx.tx, firingId);
    if (firing === null) return refuse(NO_SUCH_FIRING);
    if (firing.memberId !== ctx.who.memberId && !can(ctx.who.roles, "manage-runs")) return refuse(NOT_ALLOWED);
    return confirmHeld(ctx, firing);
  },
});
