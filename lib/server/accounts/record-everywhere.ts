import type { Temporal } from "temporal-polyfill";
import { toDate } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";

/**
 * Leaves an audit row in every workshop a person belongs to, for what concerns their account rather than one
 * workshop. Call it last: the transaction then works for the last of these workshops.
 * @param tx of `asPerson`, which sees this person's memberships
 */
export async function recordEverywhere(tx: Tx, personId: string, at: Temporal.Instant, action: string): Promise<void> {
  const members = await tx.member.findMany({ where: { personId, active: true }, select: { workshopId: true, memberId: true } });
  for (const { workshopId, memberId } of members) {
    await tx.$executeRaw`SELECT set_config('lehrbook.workshop', ${workshopId}, true)`;
    await tx.audit.create({ data: { workshopId, memberId, at: toDate(at), action, subject: "account", subjectId: memberId } });
  }
}
