import { CHOOSABLE, usuallyMailed, type MailKind } from "@/lib/contracts/told";
import type { Tx } from "@/lib/server/db";
import type { Who } from "@/lib/server/who";

export type MailChoice = { readonly kind: MailKind; readonly mailed: boolean };

/** Every kind one may choose, and how it stands for this person. */
export async function choicesOf(tx: Tx, { memberId, roles }: Pick<Who, "memberId" | "roles">): Promise<readonly MailChoice[]> {
  const rows = await tx.mailChoice.findMany({ where: { memberId } });
  const chosen = new Map(rows.map(({ kind, mailed }) => [kind, mailed]));
  return CHOOSABLE.map((kind) => ({ kind, mailed: chosen.get(kind) ?? usuallyMailed(kind, roles) }));
}
