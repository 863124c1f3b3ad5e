import { memberSchema } from "@/lib/contracts/people";
import { ok, refuse } from "@/lib/domain/refusal";
import { command } from "@/lib/server/command";
import { NO_SUCH_MEMBER } from "@/lib/server/rows/active-managers";

/** Lets a deactivated person in again, with the roles and the password they had. */
export const reactivateMember = command({
  name: "reactivate-member",
  needs: "manage-people",
  input: memberSchema,
  run: async ({ tx, audit }, { memberId, reason }) => {
    const member = await tx.member.findFirst({ where: { memberId } });
    if (member === null) return refuse(NO_SUCH_MEMBER);
    const { count } = await tx.member.updateMany({ where: { memberId, active: false }, data: { active: true } });
    if (count === 0) return refuse({ code: "already-active", message: `${member.name} is active already.` });
    await audit({
      subject: "member",
      subjectId: memberId,
      before: { name: member.name, active: false },
      after: { name: member.name, active: true, roles: member.roles },
      ...(reason ? { reason } : {}),
    });
    return ok({ name: member.name });
  },
});
