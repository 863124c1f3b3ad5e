import { type Role, ROLES } from "@/lib/domain/access/roles";
import { now, toDate } from "@/lib/server/clock";
import { accounts, inWorkshop, withToken } from "@/lib/server/db";
import { hashToken } from "@/lib/server/tokens";

export type InvitationState = "open" | "used" | "expired" | "withdrawn";

export type InvitationFound = {
  readonly state: InvitationState;
  readonly workshopId: string;
  readonly invitationId: string;
  readonly workshopName: string;
  readonly name: string;
  readonly email: string;
  readonly roles: readonly Role[];
  /** Somebody with this address already has an account, of this workshop or another. */
  readonly personId: string | null;
};

type Row = { readonly usedAt: Date | null; readonly withdrawnAt: Date | null; readonly expiresAt: Date };

export function stateOf(row: Row, at: Date): InvitationState {
  if (row.usedAt !== null) return "used";
  if (row.withdrawnAt !== null) return "withdrawn";
  return row.expiresAt > at ? "open" : "expired";
}

/** What an invitation's link leads to; null when no invitation has this link. */
export async function readInvitation(token: string): Promise<InvitationFound | null> {
  const tokenHash = hashToken(token);
  const row = await withToken(tokenHash, (tx) => tx.invitation.findFirst({ where: { tokenHash } }));
  if (row === null) return null;
  const { workshopId, invitationId, name, email } = row;
  const workshop = await inWorkshop(workshopId, (tx) => tx.workshop.findUniqueOrThrow({ where: { workshopId } }));
  const person = await accounts().person.findUnique({ where: { email } });
  return {
    state: stateOf(row, toDate(now())),
    workshopId,
    invitationId,
    workshopName: workshop.name,
    name,
    email,
    roles: ROLES.filter((role) => row.roles.includes(role)),
    personId: person?.personId ?? null,
  };
}
