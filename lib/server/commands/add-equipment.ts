import { equipmentSchema } from "@/lib/contracts/equipment";
import { ok } from "@/lib/domain/refusal";
import { toDate } from "@/lib/server/clock";
import { command } from "@/lib/server/command";
import { equipmentColumns, equipmentForRecord } from "@/lib/server/rows/equipment-columns";
import { nameTaken } from "@/lib/server/rows/find-equipment";

/** Puts a kiln, steamer or trolley into use, with the limits it has. */
export const addEquipment = command({
  name: "add-equipment",
  needs: "manage-equipment",
  input: equipmentSchema,
  run: async ({ tx, who, now, audit }, piece) => {
    const { kind, name } = piece;
    const { equipmentId } = await tx.equipment.create({
      data: { workshopId: who.workshopId, kind, ...equipmentColumns(piece), createdAt: toDate(now) },
    });
    await audit({ subject: "equipment", subjectId: equipmentId, after: { kind, ...equipmentForRecord(piece) } });
    return ok({ equipmentId, name });
  },
  onConstraint: (constraint, _who, { name }) => nameTaken(constraint, name),
});
