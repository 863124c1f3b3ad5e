import { setTomorrowHourSchema } from "@/lib/contracts/hours";
import { ok } from "@/lib/domain/refusal";
import { showHour } from "@/lib/domain/time/tomorrow";
import { command } from "@/lib/server/command";

/** From which hour tomorrow's loads and lifts are mailed. Whoever was told today already is not told again. */
export const setTomorrowHour = command({
  name: "set-tomorrow-hour",
  needs: "manage-hours",
  input: setTomorrowHourSchema,
  run: async ({ tx, who, audit }, { hour }) => {
    const { workshopId } = who;
    const before = await tx.workshop.findUniqueOrThrow({ where: { workshopId } });
    await tx.workshop.update({ where: { workshopId }, data: { tomorrowHour: hour } });
    await audit({ subject: "workshop", subjectId: workshopId, before: { tomorrowMailedFrom: showHour(before.tomorrowHour) }, after: { tomorrowMailedFrom: showHour(hour) } });
    return ok({ hour });
  },
});
