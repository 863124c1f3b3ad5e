import type { MadeFeed } from "@/lib/contracts/feeds";
import { paths } from "@/lib/contracts/paths";
import type { Problem } from "@/lib/domain/refusal";
import { toDate } from "@/lib/server/clock";
import type { Ctx } from "@/lib/server/command";
import { env } from "@/lib/server/env";
import { newToken } from "@/lib/server/tokens";

/** Whose runs a feed tells, or which kiln's bookings. */
export type FeedOf = { readonly memberId: string } | { readonly equipmentId: string };

/** Makes the one address of a feed; the one before, if there was one, opens nothing any more. */
export async function replaceFeed(ctx: Ctx, of: FeedOf, name: string): Promise<MadeFeed> {
  const { tx, who, now } = ctx;
  const replaced = await endFeed(ctx, of);
  const { token, tokenHash } = newToken();
  const { feedId } = await tx.feed.create({ data: { workshopId: who.workshopId, ...of, secretHash: tokenHash, madeBy: who.memberId, madeAt: toDate(now) } });
  await ctx.audit({ subject: "feed", subjectId: feedId, after: { name, made: true, replaced } });
  return { address: new URL(paths.feed(token), env().publicUrl).toString(), replaced };
}

/** Ends the address without a new one; undefined when there was none. */
export async function revokeFeed(ctx: Ctx, of: FeedOf, name: string): Promise<Problem | undefined> {
  const feed = await ctx.tx.feed.findFirst({ where: { ...of, revokedAt: null } });
  if (feed === null || !(await endFeed(ctx, of))) return { code: "no-feed", message: `${name} has no address; there is nothing to revoke.` };
  await ctx.audit({ subject: "feed", subjectId: feed.feedId, before: { name }, after: { name, revoked: true } });
  return undefined;
}

async function endFeed({ tx, now }: Ctx, of: FeedOf): Promise<boolean> {
  const { count } = await tx.feed.updateMany({ where: { ...of, revokedAt: null }, data: { revokedAt: toDate(now) } });
  return count > 0;
}

/** Two who make an address at the same instant: one of them has it. */
export function madeMeanwhile(constraint: string): Problem | undefined {
  if (!constraint.startsWith("feed_of_")) return undefined;
  return { code: "made-meanwhile", message: "An address was made here this very moment. Make a new one only if nobody has it." };
}
