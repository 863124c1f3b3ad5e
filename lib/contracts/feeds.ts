import { z } from "zod";

/** One's own calendar: there is nothing to say about it. */
export const myFeedSchema = z.strictObject({});

export const kilnFeedSchema = z.strictObject({ equipmentId: z.uuid() });

/** What a feed's address may be made of: 32 random bytes as base64url. */
export const FEED_SECRET = /^[\w-]{43}$/;

/** How a feed stands, without its address, which nobody can be told a second time. */
export type FeedStanding = { readonly madeMs: number; readonly madeBy: string; readonly lastReadMs: number | null };
