import { setPowerLimitSchema } from "@/lib/contracts/power";
import { ok } from "@/lib/domain/refusal";
import { command } from "@/lib/server/command";
import { loadEquipment } from "@/lib/server/rows/equipment";
import { kilnsOf } from "@/lib/server/runs/run-question";
import { lockCalendar } from "@/lib/server/runs/lock-calendar";

/** Writes down what the electrician allows. New runs keep within it; standing ones that do not show as clashes. */
export const setPowerLimit = command({
  name: "set-power-limit",
  needs: "manage-power",
  input: setPowerLimitSchema,
  run: async ({ tx, who, now, audit }, { kw }) => {
    await lockCalendar({ tx, who, now });
    const { workshopId } = who;
    const before = await tx.workshop.findUniqueOrThrow({ where: { workshopId } });
    await tx.workshop.update({ where: { workshopId }, data: { powerLimitKw: kw } });
    await audit({ subject: "workshop", subjectId: workshopId, before: { powerLimitKw: before.powerLimitKw }, after: { powerLimitKw: kw } });
    const tooStrong = kilnsOf(await loadEquipment(tx)).filter((kiln) => kw !== null && kiln.limits.powerKw > kw);
    return ok({ kw, tooStrong: tooStrong.map((kiln) => kiln.name) });
  },
});
