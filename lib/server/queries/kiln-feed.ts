import type { FeedStanding } from "@/lib/contracts/feeds";
import { feedStanding } from "@/lib/server/feeds/feed-standing";
import { query } from "@/lib/server/query";

/** How the feed of a kiln's calendar stands. */
export const kilnFeed = query<string, FeedStanding | null>({
  name: "kiln-feed",
  needs: "manage-equipment",
  run: ({ tx }, equipmentId) => feedStanding(tx, { equipmentId }),
});
