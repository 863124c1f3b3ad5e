import type { EarlierHold } from "@/lib/domain/booking/hold";
import { toInstant } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";

/** Every time that a casting has held, however it ended. */
export async function earlierHolds(tx: Tx, castingId: string): Promise<readonly EarlierHold[]> {
  const firings = await tx.firing.findMany({
    where: { heldUntil: { not: null }, askId: null, castings: { some: { castingId } } },
    // The oldest of its kiln bookings: what was held, before anybody confirmed and moved it.
    select: { heldUntil: true, bookings: { where: { purpose: "kiln" }, orderBy: { createdAt: "asc" }, take: 1 } },
  });
  return firings.flatMap(({ heldUntil, bookings: [kiln] }) =>
    heldUntil === null || kiln === undefined ? [] : [{ kilnId: kiln.equipmentId, kiln: { start: toInstant(kiln.startsAt), end: toInstant(kiln.endsAt) }, until: toInstant(heldUntil) }],
  );
}
