import { query } from "@/lib/server/query";
import { noticesOf, type NoticeLine } from "@/lib/server/rows/notices";

const AT_MOST = 200;

export type NoticesScreen = {
  readonly notices: readonly NoticeLine[];
  /** All that is on the screen was written before this instant, ISO; null when nothing is unread. */
  readonly upTo: string | null;
};

export const listNotices = query<undefined, NoticesScreen>({
  name: "notices",
  needs: "see-workshop",
  run: async ({ who, tx }) => {
    const notices = await noticesOf(tx, who.memberId, { unreadOnly: false, atMost: AT_MOST });
    const newest = notices.find((notice) => !notice.read);
    // The database keeps microseconds; the next millisecond is the first that surely includes the newest.
    return { notices, upTo: newest === undefined ? null : new Date(newest.atMs + 1).toISOString() };
  },
});
