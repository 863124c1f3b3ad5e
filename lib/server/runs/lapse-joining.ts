import { paths } from "@/lib/contracts/paths";
import { toDate } from "@/lib/server/clock";
import type { Ctx } from "@/lib/server/command";
import { titleOf } from "@/lib/server/rows/firing-title";
import { peopleIn } from "@/lib/server/rows/in-firing";
import type { LockedFiring } from "@/lib/server/rows/lock-firing";
import { tell } from "@/lib/server/tell";

/**
 * Ends what is proposed for a firing that is about to change, and tells those it waited for and who proposed it. The
 * database would end it by itself; this also says so. `because` follows "since".
 */
export async function lapseJoining(ctx: Ctx, firing: LockedFiring, because: string): Promise<void> {
  const { tx, now, who } = ctx;
  const { firingId } = firing;
  const open = await tx.joining.findFirst({ where: { firingId, status: "open" }, include: { casting: { select: { title: true } } } });
  if (open === null) return;
  const { joiningId } = open;
  await tx.joining.updateMany({ where: { joiningId, status: "open" }, data: { status: "lapsed", endedAt: toDate(now), endedBecause: `Lapsed, since ${because}.` } });
  await ctx.audit({ subject: "joining", subjectId: joiningId, before: { status: "open" }, after: { status: "lapsed" }, reason: because });
  const to = [...peopleIn(firing), open.memberId].filter((one) => one !== who.memberId);
  await tell(ctx, { to, kind: "share", text: `The proposal that ${open.casting.title} joins ${titleOf(firing.plan)} has lapsed, since ${because}.`, href: paths.joining(joiningId) });
}
