import { Temporal } from "temporal-polyfill";
import type { BookingRow, Fact, FiringRow, SaidMove, SettledRows } from "@/lib/domain/settling/rows/settled-rows";
import { showTime } from "@/lib/domain/time/show-time";

/** A moved run with its rows, as each fact looks at it. */
export type Moved = { readonly move: SaidMove; readonly firing: FiringRow; readonly bookings: readonly BookingRow[]; readonly kiln: BookingRow };
export type Fault = { readonly fact: Fact; readonly text: string };

export function at({ timeZone }: SettledRows, ms: number): string {
  return showTime(Temporal.Instant.fromEpochMilliseconds(Math.floor(ms)), timeZone);
}

export function nameOf({ equipment }: SettledRows, equipmentId: string): string {
  return equipment.find((one) => one.equipmentId === equipmentId)?.name ?? "equipment that is not there";
}
