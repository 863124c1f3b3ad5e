import { Temporal } from "temporal-polyfill";
import type { BookingRow, EquipmentRow, Fact, FiringRow, LiftRow, SaidMove, SettledRows } from "@/lib/domain/settling/rows/settled-rows";
import { showTime } from "@/lib/domain/time/show-time";

/** The rows, to be found by what they are of. */
export type RowsByKey = SettledRows & {
  readonly bookingsOf: (firingId: string) => readonly BookingRow[];
  readonly bookingsOn: (equipmentId: string) => readonly BookingRow[];
  readonly liftsOf: (firingId: string) => readonly LiftRow[];
  /** That begin on a day of the workshop's clock. */
  readonly liftsOn: (day: string) => readonly LiftRow[];
  readonly piece: (equipmentId: string) => EquipmentRow | undefined;
};

export function byKey(rows: SettledRows): RowsByKey {
  const pieces = new Map(rows.equipment.map((one) => [one.equipmentId, one]));
  return {
    ...rows,
    bookingsOf: grouped(rows.bookings, ({ firingId }) => firingId),
    bookingsOn: grouped(rows.bookings, ({ equipmentId }) => equipmentId),
    liftsOf: grouped(rows.lifts, ({ firingId }) => firingId),
    liftsOn: grouped(rows.lifts, ({ day }) => day),
    piece: (equipmentId) => pieces.get(equipmentId),
  };
}

function grouped<T>(all: readonly T[], keyOf: (one: T) => string): (key: string) => readonly T[] {
  const groups = new Map<string, T[]>();
  for (const one of all) {
    const group = groups.get(keyOf(one));
    if (group === undefined) groups.set(keyOf(one), [one]);
    else group.push(one);
  }
  return (key) => groups.get(key) ?? [];
}

/** A moved run with its rows, as each fact looks at it. */
export type Moved = { readonly move: SaidMove; readonly firing: FiringRow; readonly bookings: readonly BookingRow[]; readonly kiln: BookingRow };
export type Fault = { readonly fact: Fact; readonly text: string };

export function at({ timeZone }: SettledRows, ms: number): string {
  return showTime(Temporal.Instant.fromEpochMilliseconds(Math.floor(ms)), timeZone);
}

export function nameOf({ piece }: RowsByKey, equipmentId: string): string {
  return piece(equipmentId)?.name ?? "equipment that is not there";
}
