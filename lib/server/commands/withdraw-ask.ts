import { withdrawAskSchema } from "@/lib/contracts/runs";
import { ok, refuse } from "@/lib/domain/refusal";
import { command, NOT_ALLOWED } from "@/lib/server/command";
import { endOffer } from "@/lib/server/runs/end-offer";
import { lockOpenAsk } from "@/lib/server/runs/open-ask";

/** A member takes their own wish back. */
export const withdrawAsk = command({
  name: "withdraw-ask",
  needs: "book-runs",
  input: withdrawAskSchema,
  run: async (ctx, { askId }) => {
    const ask = await lockOpenAsk(ctx.tx, askId);
    if (!ask.ok) return ask;
    if (ask.value.memberId !== ctx.who.memberId) return refuse(NOT_ALLOWED);
    await endOffer(ctx, askId);
    await ctx.tx.ask.updateMany({ where: { askId }, data: { status: "withdrawn" } });
    await ctx.audit({ subject: "ask", subjectId: askId, before: { status: "open" }, after: { status: "withdrawn" } });
    return ok({ askId });
  },
});
