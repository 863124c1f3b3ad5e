import { paths } from "@/lib/contracts/paths";
import { changeRolesSchema } from "@/lib/contracts/people";
import { ok, refuse } from "@/lib/domain/refusal";
import { command } from "@/lib/server/command";
import { LAST_MANAGER, lockActiveManagers, NO_SUCH_MEMBER } from "@/lib/server/rows/active-managers";
import { tell } from "@/lib/server/tell";

/** Gives a person these roles instead of the ones they held. They count from their next click on. */
export const changeRoles = command({
  name: "change-roles",
  needs: "manage-people",
  input: changeRolesSchema,
  run: async (ctx, { memberId, roles }) => {
    const { tx, who, audit } = ctx;
    const managers = await lockActiveManagers(tx);
    const member = await tx.member.findFirst({ where: { memberId } });
    if (member === null) return refuse(NO_SUCH_MEMBER);
    const isLast = managers.length === 1 && managers[0] === memberId;
    if (isLast && !roles.includes("manager")) return refuse({ ...LAST_MANAGER, field: "roles" });
    await tx.member.updateMany({ where: { memberId }, data: { roles } });
    await audit({ subject: "member", subjectId: memberId, before: { name: member.name, roles: member.roles }, after: { name: member.name, roles } });
    if (memberId !== who.memberId) {
      await tell(ctx, { to: [memberId], kind: "membership", text: `${who.name} changed your roles to ${roles.join(", ")}.`, href: paths.home });
    }
    return ok({ name: member.name, roles });
  },
});
