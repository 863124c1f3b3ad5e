import type { Equipment } from "@/lib/domain/booking/equipment";
import { toDate } from "@/lib/server/clock";
import { notLapsed } from "@/lib/server/rows/not-lapsed";
import { query } from "@/lib/server/query";
import { equipmentOf } from "@/lib/server/rows/equipment";

export type OutageLine = { readonly outageId: string; readonly fromMs: number; readonly toMs: number | null; readonly reason: string };
export type EquipmentLine = { readonly equipment: Equipment; readonly retired: boolean; readonly outages: readonly OutageLine[]; readonly standingFirings: number };

/** Every piece with its limits, when it is out of service, and how many firings still count on it. */
export const workshopEquipment = query<undefined, readonly EquipmentLine[]>({
  name: "workshop-equipment",
  needs: "manage-equipment",
  run: async ({ tx, now }) => {
    const later = { gt: toDate(now) };
    const rows = await tx.equipment.findMany({
      orderBy: [{ kind: "asc" }, { name: "asc" }],
      include: {
        outages: { where: { withdrawnAt: null, OR: [{ endsAt: null }, { endsAt: later }] }, orderBy: { startsAt: "asc" } },
        bookings: { where: { standing: true, firing: notLapsed(now), endsAt: later }, select: { firingId: true } },
      },
    });
    return rows.map((row) => ({
      equipment: equipmentOf(row),
      retired: row.retiredAt !== null,
      outages: row.outages.map((o) => ({ outageId: o.outageId, fromMs: o.startsAt.getTime(), toMs: o.endsAt?.getTime() ?? null, reason: o.reason })),
      standingFirings: new Set(row.bookings.map((b) => b.firingId)).size,
    }));
  },
});
