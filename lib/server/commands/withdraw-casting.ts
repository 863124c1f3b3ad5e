import { withdrawCastingSchema } from "@/lib/contracts/casting";
import { paths } from "@/lib/contracts/paths";
import { ok, refuse } from "@/lib/domain/refusal";
import { toDate } from "@/lib/server/clock";
import { command } from "@/lib/server/command";
import { castingOf, lockCasting } from "@/lib/server/rows/casting";
import { notLapsed } from "@/lib/server/rows/not-lapsed";
import { tell } from "@/lib/server/tell";

/** Takes a casting off the list, with its open ask. Refused while a run stands for it. */
export const withdrawCasting = command({
  name: "withdraw-casting",
  needs: "write-castings",
  input: withdrawCastingSchema,
  run: async (ctx, { castingId }) => {
    const { who, tx, now } = ctx;
    const locked = await lockCasting(ctx, castingId);
    if (!locked.ok) return locked;
    const casting = locked.value;
    const standing = await tx.firingCasting.findFirst({ where: { castingId, standing: true, firing: notLapsed(now) }, include: { firing: { select: { status: true } } } });
    if (standing !== null && standing.firing.status !== "opened") {
      return refuse({
        code: "run-stands",
        message: `${casting.title} has a run booked; cancel the run, or take it out of a firing that it shares, then withdraw the casting.`,
        data: { firingId: standing.firingId },
      });
    }
    await tx.casting.updateMany({ where: { castingId }, data: { withdrawnAt: toDate(now) } });
    await tx.ask.updateMany({ where: { castingId, status: "open" }, data: { status: "withdrawn" } });
    await ctx.audit({ subject: "casting", subjectId: castingId, before: castingOf(casting), after: { withdrawn: true } });
    if (casting.memberId !== who.memberId) {
      await tell(ctx, { to: [casting.memberId], kind: "casting", text: `${who.name} withdrew your casting ${casting.title}.`, href: paths.castings });
    }
    return ok({ castingId });
  },
});
