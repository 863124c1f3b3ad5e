import type { BookingRow, LiftRow, SettledRows } from "@/lib/domain/settling/rows/settled-rows";
import { figure } from "@/lib/domain/settling/rows/verify-fits";
import { at, nameOf, type Fault, type Moved, type RowsByKey } from "@/lib/domain/settling/rows/moved-run";
import { MS_PER_MINUTE } from "@/lib/domain/time/interval";

/** Every movement that the plan needs is there, in staffed hours, with hands enough beside all other lifts, and on a trolley that is rated for it and booked. */
export function liftFaults(rows: RowsByKey, moved: Moved): Fault[] {
  const { firing, kiln, bookings } = moved;
  const own = rows.liftsOf(firing.firingId);
  const steams = bookings.some(({ purpose }) => purpose === "steam-out");
  const wanted = firing.plan.lifts.filter(({ what }) => steams || what === "load" || what === "unload");
  const missing = wanted.flatMap((lift): Fault[] => {
    const there = own.find(({ what, castingId }) => what === lift.what && castingId === (lift.castingId ?? firing.plan.castingId));
    if (there === undefined) return [{ fact: "whole", text: `has no lift of the kind "${lift.what}"` }];
    if (there.hands < lift.hands) return [{ fact: "hands", text: `takes ${lift.hands} to ${lift.what} and is planned with ${there.hands}` }];
    return lift.trolley && there.trolleyId === null ? [{ fact: "trolley", text: `needs a trolley to ${lift.what} and has none` }] : [];
  });
  const ahead = own.filter(({ from }) => from > rows.acceptedAt);
  const loaded = Math.max(...own.filter(({ what }) => what === "load").map(({ to }) => to));
  const late: Fault[] = loaded === kiln.from ? [] : [{ fact: "kiln", text: `is loaded until ${at(rows, loaded)} and its door closes at ${at(rows, kiln.from)}` }];
  return [...missing, ...late, ...ahead.flatMap((lift) => [...handFaults(rows, lift), ...trolleyFaults(rows, lift, bookings)])];
}

function handFaults(rows: RowsByKey, lift: LiftRow): Fault[] {
  const what = (): string => `is moved (${lift.what}) at ${at(rows, lift.from)}`;
  const onDuty = (minute: number): number => (isClosed(rows, lift.day) ? 0 : Math.max(0, ...rows.hours.filter((day) => day.weekday === lift.weekday && day.opensMin <= minute && minute < day.closesMin).map(({ hands }) => hands)));
  const beside = rows.liftsOn(lift.day).filter((one) => one.from < lift.to && one.to > lift.from);
  const changes = [lift.fromMin, ...beside.map((one) => lift.fromMin + (one.from - lift.from) / MS_PER_MINUTE), ...rows.hours.filter(({ weekday }) => weekday === lift.weekday).flatMap(({ opensMin, closesMin }) => [opensMin, closesMin])];
  for (const minute of changes.filter((one) => one >= lift.fromMin && one < lift.toMin)) {
    const duty = onDuty(minute);
    if (duty === 0) return [{ fact: "staffed", text: `${what()}, when nobody is there` }];
    const instant = lift.from + (minute - lift.fromMin) * MS_PER_MINUTE;
    const needed = beside.filter(({ from, to }) => from <= instant && instant < to).reduce((sum, { hands }) => sum + hands, 0);
    if (needed > duty) return [{ fact: "hands", text: `${what()}, when lifts take ${needed} and ${duty} ${duty === 1 ? "is" : "are"} on duty` }];
  }
  return [];
}

function isClosed({ closures }: SettledRows, day: string): boolean {
  return closures.some(({ from, to }) => from <= day && day <= to);
}

function trolleyFaults(rows: RowsByKey, lift: LiftRow, bookings: readonly BookingRow[]): Fault[] {
  if (lift.trolleyId === null) return [];
  const trolley = rows.piece(lift.trolleyId);
  const name = nameOf(rows, lift.trolleyId);
  if (trolley?.kind !== "trolley" || !(lift.kg + figure(trolley, "ownKg") <= figure(trolley, "ratedKg"))) return [{ fact: "trolley", text: `is too heavy for ${name} (${lift.what})` }];
  const holds = bookings.some((one) => one.equipmentId === lift.trolleyId && one.purpose === lift.what && one.from <= lift.from && lift.to <= one.to);
  return holds ? [] : [{ fact: "trolley", text: `is moved (${lift.what}) on ${name}, which is not booked for it then` }];
}
