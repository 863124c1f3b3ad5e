import { equipmentSchema } from "@/lib/contracts/equipment";
import type { Equipment } from "@/lib/domain/booking/equipment";
import { toPlainDate } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";

type Row = {
  readonly equipmentId: string;
  readonly kind: string;
  readonly name: string;
  readonly limits: unknown;
  readonly inspectionDue: Date | null;
  readonly needsInduction: boolean;
};

/** @throws when a row's limits are not those of its kind; rows are only written through the same contract. */
export function equipmentOf(row: Row): Equipment {
  const { kind, name, limits, equipmentId, inspectionDue, needsInduction } = row;
  const due = inspectionDue === null ? {} : { inspectionDue: toPlainDate(inspectionDue).toString() };
  return { equipmentId, ...equipmentSchema.parse({ kind, name, limits, ...due, ...(needsInduction ? { needsInduction } : {}) }) };
}

/** Everything in use, kilns first, by name; retired equipment stays on old firings only. */
export async function loadEquipment(tx: Tx): Promise<readonly Equipment[]> {
  const rows = await tx.equipment.findMany({ where: { retiredAt: null }, orderBy: [{ kind: "asc" }, { name: "asc" }] });
  return rows.map(equipmentOf);
}
