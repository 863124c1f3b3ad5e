import type { FeedStanding } from "@/lib/contracts/feeds";
import { feedStanding } from "@/lib/server/feeds/feed-standing";
import { query } from "@/lib/server/query";

/** How the feed of one's own calendar stands. */
export const myFeed = query<undefined, FeedStanding | null>({
  name: "my-feed",
  needs: "see-workshop",
  run: ({ tx, who }) => feedStanding(tx, { memberId: who.memberId }),
});
