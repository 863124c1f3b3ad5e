import type { KilnToShow } from "@/lib/contracts/people";
import { query } from "@/lib/server/query";

export type PersonLine = { readonly memberId: string; readonly name: string; readonly email: string; readonly roles: readonly string[]; readonly active: boolean; readonly you: boolean; readonly inductions: readonly string[] };
export type InvitationLine = { readonly invitationId: string; readonly name: string; readonly email: string; readonly roles: readonly string[]; readonly expiresMs: number; readonly expired: boolean };
export type PeopleScreen = { readonly people: readonly PersonLine[]; readonly invitations: readonly InvitationLine[]; readonly kilns: readonly KilnToShow[] };

/** Everybody of the workshop, and the invitations that are still out. */
export const workshopPeople = query<undefined, PeopleScreen>({
  name: "workshop-people",
  needs: "manage-people",
  run: async ({ who, tx, now }) => {
    const members = await tx.member.findMany({ where: { workshopId: who.workshopId }, orderBy: [{ active: "desc" }, { name: "asc" }], include: { inductions: { select: { equipmentId: true } } } });
    const kilns = await tx.equipment.findMany({ where: { needsInduction: true, retiredAt: null }, orderBy: { name: "asc" } });
    const invitations = await tx.invitation.findMany({ where: { usedAt: null, withdrawnAt: null }, orderBy: { createdAt: "desc" } });
    return {
      kilns: kilns.map(({ equipmentId, name }) => ({ kilnId: equipmentId, name })),
      people: members.map(({ memberId, name, email, roles, active, inductions }) => ({
        memberId, name, email, roles, active, you: memberId === who.memberId, inductions: inductions.map(({ equipmentId }) => equipmentId),
      })),
      invitations: invitations.map(({ invitationId, name, email, roles, expiresAt }) => ({
        invitationId, name, email, roles, expiresMs: expiresAt.getTime(), expired: expiresAt.getTime() <= now.epochMilliseconds,
      })),
    };
  },
});
