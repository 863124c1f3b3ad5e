import type { Problem } from "@/lib/domain/refusal";
import type { Tx } from "@/lib/server/db";

export const NO_SUCH_EQUIPMENT: Problem = { code: "not-found", message: "There is no such equipment in this workshop.", field: "equipmentId" };

/** The row, retired or not; null for another workshop's. */
export function findEquipment(tx: Tx, equipmentId: string) {
  return tx.equipment.findFirst({ where: { equipmentId } });
}

/** The name is taken, perhaps by a piece that was retired and still stands on old firings. */
export async function nameTaken(constraint: string, name: string): Promise<Problem | undefined> {
  if (!constraint.startsWith("equipment_name_once")) return undefined;
  return { code: "name-taken", field: "name", value: name, message: `There is a "${name}" in this workshop already, in use or retired. Choose another name.` };
}
