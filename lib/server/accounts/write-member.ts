import type { InvitationFound } from "@/lib/server/accounts/read-invitation";
import { now, toDate } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";

/** The account that joins: one that is there and has shown itself, or one still to be made. */
export type Joiner = { readonly personId: string } | { readonly passwordHash: string };

/**
 * Spends the invitation and writes the member, with the account where it is new, and the audit row.
 * Null when somebody else spent or withdrew it in the meantime: then nothing is written.
 */
export async function writeMember(tx: Tx, invitation: InvitationFound, joiner: Joiner): Promise<string | null> {
  const { workshopId, invitationId, email, name, roles } = invitation;
  const at = toDate(now());
  const { count } = await tx.invitation.updateMany({
    where: { invitationId, usedAt: null, withdrawnAt: null, expiresAt: { gt: at } },
    data: { usedAt: at },
  });
  if (count === 0) return null;
  const personId = "personId" in joiner ? joiner.personId : await newPerson(tx, email, joiner.passwordHash);
  const before = await tx.member.findFirst({ where: { personId } });
  const member = await tx.member.upsert({
    where: { workshopId_personId: { workshopId, personId } },
    create: { workshopId, personId, name, email, roles: [...roles], createdAt: at },
    update: { active: true, roles: [...new Set([...(before?.active === true ? before.roles : []), ...roles])] },
  });
  await tx.audit.create({
    data: {
      workshopId,
      memberId: member.memberId,
      at,
      action: "accept-invitation",
      subject: "member",
      subjectId: member.memberId,
      ...(before === null ? {} : { before: { roles: before.roles, active: before.active } }),
      after: { name: member.name, email, roles: member.roles, invitationId },
    },
  });
  return member.memberId;
}

async function newPerson(tx: Tx, email: string, passwordHash: string): Promise<string> {
  const { personId } = await tx.person.create({ data: { email, passwordHash } });
  return personId;
}
