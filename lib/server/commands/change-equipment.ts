import { changeEquipmentSchema } from "@/lib/contracts/equipment";
import { ok, refuse } from "@/lib/domain/refusal";
import { command } from "@/lib/server/command";
import { findEquipment, nameTaken, NO_SUCH_EQUIPMENT } from "@/lib/server/rows/find-equipment";
import { equipmentColumns, equipmentForRecord } from "@/lib/server/rows/equipment-columns";
import { equipmentOf } from "@/lib/server/rows/equipment";
import { touchedFirings } from "@/lib/server/rows/touched-firings";
import { lockCalendar } from "@/lib/server/runs/lock-calendar";

/**
 * Gives a piece of equipment another name or other limits. Runs that stand keep the plan they were booked with, so
 * they are counted for the manager to look at.
 */
export const changeEquipment = command({
  name: "change-equipment",
  needs: "manage-equipment",
  input: changeEquipmentSchema,
  run: async ({ tx, who, now, audit }, { equipmentId, ...piece }) => {
    const { kind, name } = piece;
    await lockCalendar({ tx, who, now });
    const row = await findEquipment(tx, equipmentId);
    if (row === null) return refuse(NO_SUCH_EQUIPMENT);
    if (row.kind !== kind) return refuse({ code: "kind-stays", field: "kind", value: kind, message: `${row.name} is a ${row.kind} and stays one; add the ${kind} beside it.` });
    const before = equipmentOf(row);
    await tx.equipment.updateMany({ where: { equipmentId }, data: equipmentColumns(piece) });
    await audit({
      subject: "equipment",
      subjectId: equipmentId,
      before: equipmentForRecord(before),
      after: equipmentForRecord(piece),
    });
    const standing = await touchedFirings(tx, equipmentId, now, null);
    return ok({ name, standingRuns: new Set(standing.map((one) => one.firingId)).size });
  },
  onConstraint: (constraint, _who, { name }) => nameTaken(constraint, name),
});
