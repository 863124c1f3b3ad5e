import type { Ctx } from "@/lib/server/command";
import { lockFiring } from "@/lib/server/rows/lock-firing";
import { endRun } from "@/lib/server/runs/end-run";

/** What is offered to an ask that is over is free again, for whoever is next. */
export async function endOffer(ctx: Ctx, askId: string, reason?: string): Promise<void> {
  const offer = await ctx.tx.firing.findFirst({ where: { askId, status: "held" }, select: { firingId: true } });
  const firing = offer === null ? null : await lockFiring(ctx.tx, offer.firingId);
  if (firing?.status === "held") await endRun(ctx, firing, "cancelled", reason);
}
