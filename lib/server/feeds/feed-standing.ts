import type { FeedStanding } from "@/lib/contracts/feeds";
import type { Tx } from "@/lib/server/db";
import type { FeedOf } from "@/lib/server/feeds/replace-feed";

/** When a feed's address was made and by whom, and when a calendar program last came; null without an address. */
export async function feedStanding(tx: Tx, of: FeedOf): Promise<FeedStanding | null> {
  const feed = await tx.feed.findFirst({ where: { ...of, revokedAt: null } });
  if (feed === null) return null;
  const maker = await tx.member.findFirst({ where: { memberId: feed.madeBy }, select: { name: true } });
  return { madeMs: feed.madeAt.getTime(), madeBy: maker?.name ?? "", lastReadMs: feed.lastReadAt?.getTime() ?? null };
}
