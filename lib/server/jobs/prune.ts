import type { JobHelpers } from "graphile-worker";
import { KEPT_DAYS } from "@/lib/contracts/kept";

/** So many rows in one transaction: what was never pruned before must not hold anything up. */
const AT_ONCE = 2_000;

/** Each table, and when a row of it had served; migrations 0011_kept and 0018_spent_links let the owner delete no others. */
const SERVED = [
  { table: "receipt", served: "at", days: KEPT_DAYS.receipt },
  { table: "mail", served: "coalesce(sent_at, failed_at)", days: KEPT_DAYS.mail },
  { table: "account_mail", served: "coalesce(sent_at, failed_at)", days: KEPT_DAYS.mail },
  { table: "notice", served: "read_at", days: KEPT_DAYS.notice },
  { table: "invitation", served: "coalesce(used_at, withdrawn_at, expires_at)", days: KEPT_DAYS.link },
  { table: "password_reset", served: "coalesce(used_at, expires_at)", days: KEPT_DAYS.link },
] as const;

/**
 * Deletes what has served its time: answers to keyed requests, mails that went out or were given up, notices that were
 * read, links that open nothing any more. Run it as often as you like, and whenever.
 * @param query as the owner, over all workshops
 */
export async function prune(query: JobHelpers["query"]): Promise<void> {
  for (const { table, served, days } of SERVED) {
    const some = `DELETE FROM ${table} WHERE ctid = ANY (ARRAY (SELECT ctid FROM ${table} WHERE ${served} <= now() - interval '${days} days' LIMIT ${AT_ONCE}))`;
    while (((await query(some)).rowCount ?? 0) > 0);
  }
}
