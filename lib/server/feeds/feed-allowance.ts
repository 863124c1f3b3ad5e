import type { Temporal } from "temporal-polyfill";
import { FEED_BURST, FEED_PER_HOUR } from "@/lib/contracts/feeds";
import { toDate } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";
import { Prisma } from "@/lib/server/prisma-client/client";

type FeedKey = { readonly workshopId: string; readonly feedId: string };

/**
 * Takes one reading off a feed's allowance, in one statement, however many processes serve.
 * @returns the whole seconds until the next reading, where none is left
 */
export async function takeReading(tx: Tx, { workshopId, feedId }: FeedKey, now: Temporal.Instant): Promise<number | undefined> {
  const at = toDate(now);
  // A clock that is behind another process's gives nothing back twice.
  const left = Prisma.sql`least(${FEED_BURST}::float8, a.readings + ${FEED_PER_HOUR}::float8 * greatest(0, extract(epoch FROM ${at}::timestamptz - a.at)::float8) / 3600)`;
  const taken = await tx.$executeRaw`
    INSERT INTO feed_allowance AS a (workshop_id, feed_id, readings, at) VALUES (${workshopId}::uuid, ${feedId}::uuid, ${FEED_BURST}::float8 - 1, ${at}::timestamptz)
    ON CONFLICT (workshop_id, feed_id) DO UPDATE SET readings = ${left} - 1, at = greatest(a.at, ${at}::timestamptz) WHERE ${left} >= 1`;
  if (taken === 1) return undefined;
  const [bucket] = await tx.$queryRaw<readonly { readonly wait: number }[]>`SELECT (1 - ${left}) * 3600 / ${FEED_PER_HOUR}::float8 AS wait FROM feed_allowance a WHERE feed_id = ${feedId}::uuid`;
  // Less than a microsecond is rounding, and no second more.
  return Math.max(1, Math.ceil((bucket?.wait ?? 1) - 1e-6));
}
