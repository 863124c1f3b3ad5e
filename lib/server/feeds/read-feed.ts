import type { Temporal } from "temporal-polyfill";
import { FEED_SECRET } from "@/lib/contracts/feeds";
import { now, toDate } from "@/lib/server/clock";
import { inWorkshop, withToken, type Tx } from "@/lib/server/db";
import { env } from "@/lib/server/env";
import { takeReading } from "@/lib/server/feeds/feed-allowance";
import { kilnEntries } from "@/lib/server/feeds/kiln-entries";
import { personEntries } from "@/lib/server/feeds/person-entries";
import { writeCalendar } from "@/lib/server/feeds/write-calendar";
import { hashToken } from "@/lib/server/tokens";

const HOUR_MS = 3_600_000;

/** "none": it opens nothing, being unknown, revoked, or of somebody who is no member any more; which of these, nobody is told. */
export type FeedRead = { readonly is: "none" } | { readonly is: "too-fast"; readonly waitSeconds: number } | { readonly is: "calendar"; readonly text: string };

const NONE: FeedRead = { is: "none" };

/** The calendar behind an address's secret. Every reading counts, whatever comes of it. */
export async function readFeed(secret: string): Promise<FeedRead> {
  if (!FEED_SECRET.test(secret)) return NONE;
  const secretHash = hashToken(secret);
  const feed = await withToken(secretHash, (tx) => tx.feed.findFirst({ where: { secretHash, revokedAt: null } }));
  if (feed === null) return NONE;
  const at = now();
  // A transaction of its own: what is taken stays taken, and nobody waits for a calendar to be written.
  const waitSeconds = await inWorkshop(feed.workshopId, async (tx) => ((await subjectOf(tx, feed)) === undefined ? "none" : takeReading(tx, feed, at)));
  if (waitSeconds === "none") return NONE;
  if (waitSeconds !== undefined) return { is: "too-fast", waitSeconds };
  return inWorkshop(feed.workshopId, async (tx) => {
    const subject = await subjectOf(tx, feed);
    if (subject === undefined) return NONE;
    const { name: workshopName, timeZone } = await tx.workshop.findFirstOrThrow();
    const entries = subject.is === "person" ? await personEntries(tx, subject.member, at) : await kilnEntries(tx, subject.kiln, at, timeZone);
    await noteReading(tx, feed, at);
    return { is: "calendar", text: writeCalendar({ name: `${subject.name}, ${workshopName}`, timeZone, publicUrl: env().publicUrl, now: at, entries }) };
  });
}

type FeedRow = { readonly feedId: string; readonly memberId: string | null; readonly equipmentId: string | null; readonly lastReadAt: Date | null };

async function subjectOf(tx: Tx, { memberId, equipmentId }: FeedRow) {
  if (memberId !== null) {
    const member = await tx.member.findFirst({ where: { memberId, active: true } });
    return member === null ? undefined : ({ is: "person", name: member.name, member } as const);
  }
  const kiln = equipmentId === null ? null : await tx.equipment.findFirst({ where: { equipmentId } });
  return kiln === null ? undefined : ({ is: "kiln", name: kiln.name, kiln } as const);
}

/** To the hour: whether a calendar still comes is worth knowing, but not a write for every request. */
async function noteReading(tx: Tx, { feedId, lastReadAt }: FeedRow, at: Temporal.Instant): Promise<void> {
  if (lastReadAt !== null && at.epochMilliseconds - lastReadAt.getTime() < HOUR_MS) return;
  await tx.feed.updateMany({ where: { feedId }, data: { lastReadAt: toDate(at) } });
}
