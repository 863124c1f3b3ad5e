import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import type { Tx } from "@/lib/server/db";
import { findEquipment, NO_SUCH_EQUIPMENT } from "@/lib/server/rows/find-equipment";

/** The kiln that a feed is asked for; steamers and trolleys have none. */
export async function findKiln(tx: Tx, equipmentId: string): Promise<Outcome<{ readonly name: string; readonly retired: boolean }>> {
  const row = await findEquipment(tx, equipmentId);
  if (row === null) return refuse(NO_SUCH_EQUIPMENT);
  if (row.kind !== "kiln") return refuse({ code: "not-a-kiln", field: "equipmentId", message: `${row.name} is a ${row.kind}; only a kiln has a calendar to read elsewhere.` });
  return ok({ name: row.name, retired: row.retiredAt !== null });
}
