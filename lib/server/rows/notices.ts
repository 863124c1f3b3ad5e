import type { Tx } from "@/lib/server/db";

export type NoticeLine = {
  readonly noticeId: string;
  readonly text: string;
  readonly href: string;
  /** Epoch milliseconds. */
  readonly atMs: number;
  readonly read: boolean;
};

type Which = {
  readonly unreadOnly: boolean;
  readonly atMost: number;
  /** Only those that lead to one of these pages, or to none of them. */
  readonly about?: readonly string[];
  readonly besides?: readonly string[];
};

/** What one member was told, newest first. */
export async function noticesOf(tx: Tx, memberId: string, { unreadOnly, atMost, about, besides = [] }: Which): Promise<readonly NoticeLine[]> {
  const rows = await tx.notice.findMany({
    where: { memberId, href: { notIn: [...besides], ...(about === undefined ? {} : { in: [...about] }) }, ...(unreadOnly ? { readAt: null } : {}) },
    orderBy: { createdAt: "desc" },
    take: atMost,
  });
  return rows.map(({ noticeId, text, href, createdAt, readAt }) => ({ noticeId, text, href, atMs: createdAt.getTime(), read: readAt !== null }));
}
