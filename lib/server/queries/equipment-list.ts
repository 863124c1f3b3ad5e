import { equipmentAnswerSchema, type EquipmentAnswer } from "@/lib/contracts/api/equipment-answer";
import { toDate, toInstant } from "@/lib/server/clock";
import { query } from "@/lib/server/query";
import { equipmentOf } from "@/lib/server/rows/equipment";

/** Everything in use with its limits and its outages, now and to come: for everybody in the workshop. */
export const equipmentList = query<undefined, EquipmentAnswer>({
  name: "equipment-list",
  needs: "see-workshop",
  run: async ({ who, tx, now }) => {
    const rows = await tx.equipment.findMany({
      where: { retiredAt: null },
      orderBy: [{ kind: "asc" }, { name: "asc" }],
      include: { outages: { where: { withdrawnAt: null, OR: [{ endsAt: null }, { endsAt: { gt: toDate(now) } }] }, orderBy: { startsAt: "asc" } } },
    });
    const equipment = rows.map((row) => {
      const outages = row.outages.map(({ startsAt, endsAt, reason }) => ({ from: toInstant(startsAt).toString(), to: endsAt === null ? null : toInstant(endsAt).toString(), reason }));
      const piece = equipmentOf(row);
      return { ...piece, inspectionDue: piece.inspectionDue ?? null, needsInduction: row.needsInduction, outages };
    });
    return equipmentAnswerSchema.parse({ workshop: who.workshopName, timeZone: who.timeZone, equipment });
  },
});
