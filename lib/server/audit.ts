import type { Temporal } from "temporal-polyfill";
import { toDate } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";
import type { Prisma } from "@/lib/server/prisma-client/client";
import type { Who } from "@/lib/server/who";

/** What was changed: which row, how it stood before and after, and why. */
export type AuditEntry = {
  readonly subject: string;
  readonly subjectId: string;
  readonly before?: Prisma.InputJsonValue;
  readonly after?: Prisma.InputJsonValue;
  readonly reason?: string;
};

export async function writeAudit(tx: Tx, who: Who, at: Temporal.Instant, action: string, entry: AuditEntry): Promise<void> {
  await tx.audit.create({
    data: { workshopId: who.workshopId, memberId: who.memberId, tokenId: who.token?.tokenId ?? null, at: toDate(at), action, ...entry },
  });
}
