import type { BookingRow } from "@/lib/domain/settling/rows/settled-rows";
import { figure } from "@/lib/domain/settling/rows/verify-fits";
import { at, nameOf, type Fault, type Moved, type RowsByKey } from "@/lib/domain/settling/rows/moved-run";
import { MS_PER_HOUR } from "@/lib/domain/time/interval";

/** Nothing that a moved run holds is held twice, out of service, or above the electrician's limit. */
export function placeFaults(rows: RowsByKey, moved: Moved): Fault[] {
  const ahead = moved.bookings.filter(({ from }) => from > rows.acceptedAt);
  return [...ahead.flatMap((one) => [...twiceFaults(rows, one), ...outFaults(rows, one)]), ...powerFaults(rows, moved)];
}

/** A kiln from the beginning of the loading until it is free again, when that is later than booked. */
function heldBy({ purpose, from, to, loadFrom, unloadFrom, expectedEnd }: BookingRow): { readonly from: number; readonly to: number } {
  if (purpose !== "kiln") return { from, to };
  const late = expectedEnd === null ? 0 : expectedEnd - (unloadFrom ?? to);
  return { from: Math.min(from, loadFrom ?? from), to: to + Math.max(0, late) };
}

function twiceFaults(rows: RowsByKey, booking: BookingRow): Fault[] {
  const own = heldBy(booking);
  const other = rows.bookingsOn(booking.equipmentId).find((one) => {
    if (one === booking) return false;
    const theirs = heldBy(one);
    return theirs.from < own.to && own.from < theirs.to;
  });
  if (other === undefined) return [];
  const fact = booking.purpose === "kiln" ? "kiln" : booking.purpose === "steam-out" ? "steamer" : "trolley";
  return [{ fact, text: `has ${nameOf(rows, booking.equipmentId)} from ${at(rows, own.from)} to ${at(rows, own.to)}, and ${other.firingId === booking.firingId ? "so it has once more" : `so has ${other.title}`}` }];
}

function outFaults(rows: RowsByKey, booking: BookingRow): Fault[] {
  const { from, to } = heldBy(booking);
  const piece = rows.piece(booking.equipmentId);
  const name = nameOf(rows, booking.equipmentId);
  if (piece === undefined || piece.retired) return [{ fact: "outage", text: `has ${name} from ${at(rows, from)}, which is not in use any more` }];
  const out = rows.outages.find((one) => one.equipmentId === booking.equipmentId && one.from < to && from < (one.to ?? Infinity));
  if (out !== undefined) return [{ fact: "outage", text: `has ${name} from ${at(rows, from)}, when it is out of service (${out.reason})` }];
  return to > (piece.uninspectedFrom ?? Infinity) ? [{ fact: "outage", text: `has ${name} until ${at(rows, to)}, after its inspection falls due` }] : [];
}

function powerFaults(rows: RowsByKey, { kiln }: Moved): Fault[] {
  const { powerLimitKw } = rows;
  if (powerLimitKw === null) return [];
  const heats = (one: BookingRow): { readonly from: number; readonly to: number } => ({ from: one.from, to: one.from + one.heatingHours * MS_PER_HOUR });
  const own = heats(kiln);
  const hot = rows.bookings.filter((one) => one.purpose === "kiln" && one.status !== "opened" && heats(one).from < own.to && heats(one).to > own.from);
  for (const instant of [own.from, ...hot.map(({ from }) => from).filter((from) => from > own.from)]) {
    const hotThen = hot.filter((one) => heats(one).from <= instant && instant < heats(one).to);
    const kw = hotThen.reduce((sum, { equipmentId }) => sum + ratingOf(rows, equipmentId), 0);
    if (!(kw <= powerLimitKw + 1e-6)) return [{ fact: "power", text: `heats at ${at(rows, instant)}, when kilns draw ${Math.round(10 * kw) / 10} kW together and ${powerLimitKw} kW is the limit` }];
  }
  return [];
}

function ratingOf({ piece }: RowsByKey, equipmentId: string): number {
  const kiln = piece(equipmentId);
  return kiln === undefined ? NaN : figure(kiln, "powerKw");
}
