import { memberSchema } from "@/lib/contracts/people";
import { ok, refuse } from "@/lib/domain/refusal";
import { toDate } from "@/lib/server/clock";
import { command } from "@/lib/server/command";
import { notLapsed } from "@/lib/server/rows/not-lapsed";
import { LAST_MANAGER, lockActiveManagers, NO_SUCH_MEMBER } from "@/lib/server/rows/active-managers";

/**
 * Ends somebody's membership, at once and for every session. Their castings, firings and words in the record stay;
 * runs that still stand are counted, for the manager to decide on.
 */
export const deactivateMember = command({
  name: "deactivate-member",
  needs: "manage-people",
  input: memberSchema,
  run: async ({ tx, now, audit }, { memberId, reason }) => {
    const managers = await lockActiveManagers(tx);
    const member = await tx.member.findFirst({ where: { memberId } });
    if (member === null) return refuse(NO_SUCH_MEMBER);
    if (!member.active) return refuse({ code: "already-deactivated", message: `${member.name} is deactivated already.` });
    if (managers.length === 1 && managers[0] === memberId) return refuse(LAST_MANAGER);
    await tx.member.updateMany({ where: { memberId }, data: { active: false } });
    const standingRuns = await tx.firing.count({ where: { memberId, ...notLapsed(now), bookings: { some: { standing: true, endsAt: { gt: toDate(now) } } } } });
    await audit({
      subject: "member",
      subjectId: memberId,
      before: { name: member.name, active: true },
      after: { name: member.name, active: false, standingRuns },
      ...(reason ? { reason } : {}),
    });
    return ok({ name: member.name, standingRuns });
  },
});
