import { query } from "@/lib/server/query";

export type PersonLine = { readonly memberId: string; readonly name: string; readonly email: string; readonly roles: readonly string[]; readonly active: boolean; readonly you: boolean };
export type InvitationLine = { readonly invitationId: string; readonly name: string; readonly email: string; readonly roles: readonly string[]; readonly expiresMs: number; readonly expired: boolean };
export type PeopleScreen = { readonly people: readonly PersonLine[]; readonly invitations: readonly InvitationLine[] };

/** Everybody of the workshop, and the invitations that are still out. */
export const workshopPeople = query<undefined, PeopleScreen>({
  name: "workshop-people",
  needs: "manage-people",
  run: async ({ who, tx, now }) => {
    const members = await tx.member.findMany({ where: { workshopId: who.workshopId }, orderBy: [{ active: "desc" }, { name: "asc" }] });
    const invitations = await tx.invitation.findMany({ where: { usedAt: null, withdrawnAt: null }, orderBy: { createdAt: "desc" } });
    return {
      people: members.map(({ memberId, name, email, roles, active }) => ({ memberId, name, email, roles, active, you: memberId === who.memberId })),
      invitations: invitations.map(({ invitationId, name, email, roles, expiresAt }) => ({
        invitationId, name, email, roles, expiresMs: expiresAt.getTime(), expired: expiresAt.getTime() <= now.epochMilliseconds,
      })),
    };
  },
});
