import type { Tx } from "@/lib/server/db";
import type { Problem } from "@/lib/domain/refusal";

/**
 * The managers who can act now, locked until the transaction ends: of two managers taking the role from each other
 * at the same instant, the second finds only one left.
 */
export async function lockActiveManagers(tx: Tx): Promise<readonly string[]> {
  const rows = await tx.$queryRaw<{ member_id: string }[]>`
    SELECT member_id FROM member WHERE active AND 'manager' = ANY (roles) ORDER BY member_id FOR UPDATE`;
  return rows.map((row) => row.member_id);
}

export const LAST_MANAGER: Problem = {
  code: "last-manager",
  message: "This is the workshop's last active manager. Make somebody else a manager first; without one nobody could put this right.",
};

export const NO_SUCH_MEMBER: Problem = { code: "not-found", message: "There is no such person in this workshop.", field: "memberId" };
