import type { Temporal } from "temporal-polyfill";
import { toDate } from "@/lib/server/clock";
import type { Prisma } from "@/lib/server/prisma-client/client";
import { sendLater, sql, type Statements } from "@/lib/server/statements";
import type { Who } from "@/lib/server/who";

/** What was changed: which row, how it stood before and after, and why. */
export type AuditEntry = {
  readonly subject: string;
  readonly subjectId: string;
  readonly before?: Prisma.InputJsonValue;
  readonly after?: Prisma.InputJsonValue;
  readonly reason?: string;
};

/** Several rows of one action at once, in their order. */
export async function writeAudits(tx: Statements, who: Who, at: Temporal.Instant, action: string, entries: readonly AuditEntry[]): Promise<void> {
  await sendLater(tx, sql`
    /* prepared */ INSERT INTO audit (workshop_id, member_id, token_id, at, action, subject, subject_id, before, after, reason)
    SELECT ${who.workshopId}::uuid, ${who.memberId}::uuid, ${who.token?.tokenId ?? null}::uuid, ${toDate(at)}::timestamptz, ${action}::text, e.entry->>'subject', e.entry->>'subjectId', e.entry->'before', e.entry->'after', e.entry->>'reason'
      FROM jsonb_array_elements(${JSON.stringify(entries)}::jsonb) WITH ORDINALITY AS e (entry, place) ORDER BY e.place`);
}

export function writeAudit(tx: Statements, who: Who, at: Temporal.Instant, action: string, entry: AuditEntry): Promise<void> {
  return writeAudits(tx, who, at, action, [entry]);
}
