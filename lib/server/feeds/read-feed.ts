import type { Temporal } from "temporal-polyfill";
import { FEED_SECRET } from "@/lib/contracts/feeds";
import { now, toDate } from "@/lib/server/clock";
import { inWorkshop, withToken, type Tx } from "@/lib/server/db";
import { env } from "@/lib/server/env";
import { kilnEntries } from "@/lib/server/feeds/kiln-entries";
import { personEntries } from "@/lib/server/feeds/person-entries";
import { writeCalendar } from "@/lib/server/feeds/write-calendar";
import { hashToken } from "@/lib/server/tokens";

const HOUR_MS = 3_600_000;

/**
 * The calendar behind an address's secret. Undefined when it opens nothing: unknown, revoked, or of somebody who is no
 * member any more; which of these, nobody is told.
 */
export async function readFeed(secret: string): Promise<string | undefined> {
  if (!FEED_SECRET.test(secret)) return undefined;
  const secretHash = hashToken(secret);
  const feed = await withToken(secretHash, (tx) => tx.feed.findFirst({ where: { secretHash, revokedAt: null } }));
  if (feed === null) return undefined;
  return inWorkshop(feed.workshopId, async (tx) => {
    const at = now();
    const workshop = await tx.workshop.findFirstOrThrow();
    const of = await subjectOf(tx, feed, at, workshop.timeZone);
    if (of === undefined) return undefined;
    await noteReading(tx, feed, at);
    return writeCalendar({ name: `${of.name}, ${workshop.name}`, timeZone: workshop.timeZone, publicUrl: env().publicUrl, now: at, entries: of.entries });
  });
}

type FeedRow = { readonly feedId: string; readonly memberId: string | null; readonly equipmentId: string | null; readonly lastReadAt: Date | null };

async function subjectOf(tx: Tx, { memberId, equipmentId }: FeedRow, at: Temporal.Instant, timeZone: string) {
  if (memberId !== null) {
    const member = await tx.member.findFirst({ where: { memberId, active: true } });
    return member === null ? undefined : { name: member.name, entries: await personEntries(tx, member, at) };
  }
  const kiln = equipmentId === null ? null : await tx.equipment.findFirst({ where: { equipmentId } });
  return kiln === null ? undefined : { name: kiln.name, entries: await kilnEntries(tx, kiln, at, timeZone) };
}

/** To the hour: whether a calendar still comes is worth knowing, but not a write for every request. */
async function noteReading(tx: Tx, { feedId, lastReadAt }: FeedRow, at: Temporal.Instant): Promise<void> {
  if (lastReadAt !== null && at.epochMilliseconds - lastReadAt.getTime() < HOUR_MS) return;
  await tx.feed.updateMany({ where: { feedId }, data: { lastReadAt: toDate(at) } });
}
