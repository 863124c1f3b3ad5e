import { restoreEquipmentSchema } from "@/lib/contracts/equipment";
import { ok, refuse } from "@/lib/domain/refusal";
import { command } from "@/lib/server/command";
import { findEquipment, NO_SUCH_EQUIPMENT } from "@/lib/server/rows/find-equipment";

/** Puts retired equipment back into use, with the limits it had. */
export const restoreEquipment = command({
  name: "restore-equipment",
  needs: "manage-equipment",
  input: restoreEquipmentSchema,
  run: async ({ tx, audit }, { equipmentId, reason }) => {
    const row = await findEquipment(tx, equipmentId);
    if (row === null) return refuse(NO_SUCH_EQUIPMENT);
    const { count } = await tx.equipment.updateMany({ where: { equipmentId, retiredAt: { not: null } }, data: { retiredAt: null } });
    if (count === 0) return refuse({ code: "not-retired", message: `${row.name} is in use already.` });
    const said = reason ? { reason } : {};
    await audit({ subject: "equipment", subjectId: equipmentId, before: { name: row.name, retired: true }, after: { name: row.name, retired: false }, ...said });
    return ok({ name: row.name });
  },
});
