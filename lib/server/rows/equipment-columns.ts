import { Temporal } from "temporal-polyfill";
import type { EquipmentInput } from "@/lib/contracts/equipment";
import type { Equipment } from "@/lib/domain/booking/equipment";
import { fromPlainDate } from "@/lib/server/clock";

/** A described piece as its columns, and as the record shows it. */
export function equipmentColumns(piece: EquipmentInput) {
  const { name, limits, inspectionDue = null } = piece;
  return {
    name,
    limits,
    inspectionDue: inspectionDue === null ? null : fromPlainDate(Temporal.PlainDate.from(inspectionDue)),
    needsInduction: piece.kind === "kiln" && piece.needsInduction === true,
  };
}

export function equipmentForRecord(piece: EquipmentInput | Equipment) {
  const { name, limits, inspectionDue = null } = piece;
  return { name, limits: { ...limits }, inspectionDue, ...(piece.kind === "kiln" ? { needsInduction: piece.needsInduction === true } : {}) };
}
