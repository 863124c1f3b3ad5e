import { removeTariffSchema } from "@/lib/contracts/tariff";
import { ok, refuse } from "@/lib/domain/refusal";
import { command } from "@/lib/server/command";
import { deleteTariff, loadTariff } from "@/lib/server/rows/tariff";
import { tariffWords } from "@/lib/server/rows/tariff-words";
import { lockCalendar } from "@/lib/server/runs/lock-calendar";

/** Takes the tariff away: firings then show their energy without a cost. */
export const removeTariff = command({
  name: "remove-tariff",
  needs: "manage-power",
  input: removeTariffSchema,
  run: async ({ tx, who, now, audit }, { reason }) => {
    await lockCalendar({ tx, who, now });
    const before = tariffWords(await loadTariff(tx));
    if (before === null) return refuse({ code: "no-tariff", message: "No tariff is set; somebody took it away before." });
    await deleteTariff(tx);
    await audit({ subject: "tariff", subjectId: who.workshopId, before, ...(reason === undefined || reason === "" ? {} : { reason }) });
    return ok({});
  },
});
