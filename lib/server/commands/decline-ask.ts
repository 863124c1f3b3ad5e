import { paths } from "@/lib/contracts/paths";
import { declineAskSchema } from "@/lib/contracts/runs";
import { ok } from "@/lib/domain/refusal";
import { command } from "@/lib/server/command";
import { endOffer } from "@/lib/server/runs/end-offer";
import { lockOpenAsk } from "@/lib/server/runs/open-ask";
import { tell } from "@/lib/server/tell";

/** The manager says no to an ask, and why; the member is told. */
export const declineAsk = command({
  name: "decline-ask",
  needs: "settle-clashes",
  input: declineAskSchema,
  run: async (ctx, { askId, reason }) => {
    const ask = await lockOpenAsk(ctx.tx, askId);
    if (!ask.ok) return ask;
    await endOffer(ctx, askId, reason);
    await ctx.tx.ask.updateMany({ where: { askId }, data: { status: "declined", answer: reason } });
    await ctx.audit({ subject: "ask", subjectId: askId, before: { status: "open" }, after: { status: "declined" }, reason });
    const { memberId, castingId, casting, kiln } = ask.value;
    const text = `${ctx.who.name} declined your ask for ${kiln?.name ?? "kiln time"} for ${casting.title}.`;
    await tell(ctx, { to: [memberId], kind: "answered", text, reason, href: paths.findTime(castingId) });
    return ok({ askId });
  },
});
