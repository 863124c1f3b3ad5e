import type { MailKind } from "@/lib/contracts/told";
import type { Statements } from "@/lib/server/statements";

type Asked = {
  /** Everybody of the workshop when left out. */
  readonly memberIds?: readonly string[] | null;
  readonly kind: MailKind;
  /** How the kind stands for somebody who chose nothing. */
  readonly usually: (roles: readonly string[]) => boolean;
};

export type MailReader = { readonly memberId: string; readonly name: string; readonly email: string };

/** Who of these wants this kind mailed; nobody who is deactivated. */
export async function mailReaders(tx: Statements, { memberIds = null, kind, usually }: Asked): Promise<readonly MailReader[]> {
  const members = await tx.$queryRaw<readonly (MailReader & { readonly roles: readonly string[]; readonly mailed: boolean | null })[]>`
    /* prepared */ SELECT m.member_id AS "memberId", m.name, m.email, m.roles, c.mailed
      FROM member m LEFT JOIN mail_choice c ON c.workshop_id = m.workshop_id AND c.member_id = m.member_id AND c.kind = ${kind}
     WHERE m.workshop_id = current_workshop() AND m.active AND (${memberIds}::uuid[] IS NULL OR m.member_id = ANY (${memberIds}::uuid[]))`;
  return members
    .filter(({ roles, mailed }) => mailed ?? usually(roles))
    .map(({ memberId, name, email }) => ({ memberId, name, email }));
}
