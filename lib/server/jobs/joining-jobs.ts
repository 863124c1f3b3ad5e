import { paths } from "@/lib/contracts/paths";
import { toDate } from "@/lib/server/clock";
import { inWorkshop } from "@/lib/server/db";
import { tellingFor } from "@/lib/server/jobs/telling-for";
import { findJoining, overBecause } from "@/lib/server/joining/joining-state";
import { titleOf } from "@/lib/server/rows/firing-title";
import { peopleIn } from "@/lib/server/rows/in-firing";
import { readFiring } from "@/lib/server/rows/lock-firing";
import { tell } from "@/lib/server/tell";

export type JoiningJob = { readonly workshopId: string; readonly joiningId: string };

/**
 * Ends a proposal whose deadline is past and tells who proposed it and who was asked. Run it as often as you like, or
 * never: nobody can answer one that is over.
 * @returns when to come again, if it is too early
 */
export async function lapseJoiningInTime({ workshopId, joiningId }: JoiningJob): Promise<Date | undefined> {
  return inWorkshop(workshopId, async (tx) => {
    const telling = await tellingFor(tx, workshopId);
    if (telling === undefined) return undefined;
    await tx.$executeRaw`SELECT 1 FROM joining WHERE joining_id = ${joiningId}::uuid FOR UPDATE`;
    const joining = await findJoining(tx, joiningId);
    if (joining === null || joining.status !== "open") return undefined;
    const endedBecause = overBecause(joining, telling.now);
    if (endedBecause === undefined) return new Date(Date.now() + Math.min(60_000, joining.expiresAt.getTime() - telling.now.epochMilliseconds + 1));
    const at = toDate(telling.now);
    await tx.joining.updateMany({ where: { joiningId, status: "open" }, data: { status: "lapsed", endedAt: at, endedBecause } });
    await tx.audit.create({ data: { workshopId, at, action: "lapse-joining", subject: "joining", subjectId: joiningId, before: { status: "open" }, after: { status: "lapsed" }, reason: endedBecause } });
    const firing = await readFiring(tx, joining.firingId);
    const to = [joining.memberId, ...(firing === null ? [] : peopleIn(firing))];
    await tell(telling, { to, kind: "share", text: `The proposal that ${joining.casting.title} joins ${titleOf(joining.firing.plan)} is over. ${endedBecause}`, href: paths.joining(joiningId) });
    return undefined;
  });
}
