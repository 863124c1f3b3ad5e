import { withdrawInvitationSchema } from "@/lib/contracts/people";
import { ok, refuse } from "@/lib/domain/refusal";
import { toDate } from "@/lib/server/clock";
import { command } from "@/lib/server/command";

/** Makes an invitation's link worthless. One that was used has made a member and stays. */
export const withdrawInvitation = command({
  name: "withdraw-invitation",
  needs: "manage-people",
  input: withdrawInvitationSchema,
  run: async ({ tx, now, audit }, { invitationId, reason }) => {
    const { count } = await tx.invitation.updateMany({
      where: { invitationId, usedAt: null, withdrawnAt: null },
      data: { withdrawnAt: toDate(now) },
    });
    const invitation = await tx.invitation.findFirst({ where: { invitationId } });
    if (invitation === null) return refuse({ code: "not-found", message: "There is no such invitation in this workshop.", field: "invitationId" });
    if (count === 0) {
      const how = invitation.usedAt === null ? "withdrawn" : "used";
      return refuse({ code: `invitation-${how}`, message: `The invitation for ${invitation.name} was ${how} already.` });
    }
    await audit({ subject: "invitation", subjectId: invitationId, after: { name: invitation.name, withdrawn: true }, ...(reason ? { reason } : {}) });
    return ok({ name: invitation.name });
  },
});
