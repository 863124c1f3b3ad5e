import { Temporal } from "temporal-polyfill";
import { retireEquipmentSchema } from "@/lib/contracts/equipment";
import { ok, refuse, type Problem } from "@/lib/domain/refusal";
import { showInterval } from "@/lib/domain/time/show-time";
import { toDate } from "@/lib/server/clock";
import { command } from "@/lib/server/command";
import { findEquipment, NO_SUCH_EQUIPMENT } from "@/lib/server/rows/find-equipment";
import { touchedFirings, type TouchedFiring } from "@/lib/server/rows/touched-firings";
import { lockCalendar } from "@/lib/server/runs/lock-calendar";

/** Takes equipment out of use for good. Refused while bookings that are not over hang on it; past firings keep it. */
export const retireEquipment = command({
  name: "retire-equipment",
  needs: "manage-equipment",
  input: retireEquipmentSchema,
  run: async ({ tx, who, now, audit }, { equipmentId, reason }) => {
    await lockCalendar({ tx, who, now });
    const row = await findEquipment(tx, equipmentId);
    if (row === null) return refuse(NO_SUCH_EQUIPMENT);
    if (row.retiredAt !== null) return refuse({ code: "already-retired", message: `${row.name} is retired already.` });
    const [first, ...others] = await touchedFirings(tx, equipmentId, now, null);
    if (first !== undefined) return refuse(stillBooked(row.name, [first, ...others], who.timeZone));
    await tx.equipment.updateMany({ where: { equipmentId }, data: { retiredAt: toDate(now) } });
    await audit({ subject: "equipment", subjectId: equipmentId, before: { name: row.name, retired: false }, after: { name: row.name, retired: true }, reason });
    return ok({ name: row.name });
  },
});

function stillBooked(name: string, bookings: readonly TouchedFiring[], timeZone: string): Problem {
  const named = bookings.map((one) => {
    const [start, end] = [one.startMs, one.endMs].map((ms) => Temporal.Instant.fromEpochMilliseconds(ms));
    return start === undefined || end === undefined ? one.title : `${one.title} of ${one.memberName} (${one.purpose}, ${showInterval({ start, end }, timeZone)})`;
  });
  return {
    code: "still-booked",
    message: `${name} cannot be retired while bookings hang on it: ${named.join("; ")}. Move or release them first, or enter an outage.`,
    data: { firingIds: bookings.map((one) => one.firingId) },
  };
}
