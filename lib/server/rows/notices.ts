import type { Tx } from "@/lib/server/db";

export type NoticeLine = {
  readonly noticeId: string;
  readonly text: string;
  readonly href: string;
  /** Epoch milliseconds. */
  readonly atMs: number;
  readonly read: boolean;
};

/** What one member was told, newest first. */
export async function noticesOf(tx: Tx, memberId: string, { unreadOnly, atMost }: { readonly unreadOnly: boolean; readonly atMost: number }): Promise<readonly NoticeLine[]> {
  const rows = await tx.notice.findMany({
    where: { memberId, ...(unreadOnly ? { readAt: null } : {}) },
    orderBy: { createdAt: "desc" },
    take: atMost,
  });
  return rows.map(({ noticeId, text, href, createdAt, readAt }) => ({ noticeId, text, href, atMs: createdAt.getTime(), read: readAt !== null }));
}
