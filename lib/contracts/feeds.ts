import { z } from "zod";

/** One's own calendar: there is nothing to say about it. */
export const myFeedSchema = z.strictObject({});

export const kilnFeedSchema = z.strictObject({ equipmentId: z.uuid() });

/** What a feed's address may be made of: 32 random bytes as base64url. */
export const FEED_SECRET = /^[\w-]{43}$/;

/** So many readings an hour in the long run, and so many at once: a calendar program asks every few minutes at most. */
export const FEED_PER_HOUR = 60;
export const FEED_BURST = 10;

/** How a feed stands, without its address, which nobody can be told a second time. */
export type FeedStanding = { readonly madeMs: number; readonly madeBy: string; readonly lastReadMs: number | null };

/** What making an address answers. */
export type MadeFeed = {
  /** Whole, with its secret; this answer is the only place where it stands. */
  readonly address: string;
  /** Whether an older address was ended by it. */
  readonly replaced: boolean;
};
