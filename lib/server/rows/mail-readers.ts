import type { MailKind } from "@/lib/contracts/told";
import type { Tx } from "@/lib/server/db";

type Asked = {
  /** Everybody of the workshop when left out. */
  readonly memberIds?: readonly string[];
  readonly kind: MailKind;
  /** How the kind stands for somebody who chose nothing. */
  readonly usually: (roles: readonly string[]) => boolean;
};

export type MailReader = { readonly memberId: string; readonly name: string; readonly email: string };

/** Who of these wants this kind mailed; nobody who is deactivated. */
export async function mailReaders(tx: Tx, { memberIds, kind, usually }: Asked): Promise<readonly MailReader[]> {
  const members = await tx.member.findMany({
    where: { active: true, ...(memberIds === undefined ? {} : { memberId: { in: [...memberIds] } }) },
    select: { memberId: true, name: true, email: true, roles: true, choices: { where: { kind } } },
  });
  return members
    .filter(({ roles, choices }) => choices[0]?.mailed ?? usually(roles))
    .map(({ memberId, name, email }) => ({ memberId, name, email }));
}
