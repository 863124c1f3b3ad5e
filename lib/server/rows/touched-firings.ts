import type { Temporal } from "temporal-polyfill";
import { toDate } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";
import { PLAN_TITLE, titleOf } from "@/lib/server/rows/firing-title";

/** A standing booking of one piece of equipment, with whose it is. */
export type TouchedFiring = {
  readonly firingId: string;
  readonly memberId: string;
  readonly memberName: string;
  readonly title: string;
  readonly purpose: string;
  readonly startMs: number;
  readonly endMs: number;
};

/** Standing bookings of this equipment that share any instant with [from, to), soonest first; no `to` means all later ones. */
export async function touchedFirings(tx: Tx, equipmentId: string, from: Temporal.Instant, to: Temporal.Instant | null): Promise<readonly TouchedFiring[]> {
  const rows = await tx.booking.findMany({
    where: { equipmentId, standing: true, endsAt: { gt: toDate(from) }, ...(to === null ? {} : { startsAt: { lt: toDate(to) } }) },
    include: { firing: { include: { member: { select: { name: true } }, plan: { select: PLAN_TITLE } } } },
    orderBy: { startsAt: "asc" },
  });
  return rows.map(({ firing, firingId, purpose, startsAt, endsAt }) => ({
    firingId,
    memberId: firing.memberId,
    memberName: firing.member.name,
    title: titleOf(firing.plan),
    purpose,
    startMs: startsAt.getTime(),
    endMs: endsAt.getTime(),
  }));
}
