import { setTariffSchema } from "@/lib/contracts/tariff";
import { ok } from "@/lib/domain/refusal";
import { readTariff } from "@/lib/domain/tariff/read-tariff";
import type { Weekday } from "@/lib/domain/time/staffed-hours";
import { command } from "@/lib/server/command";
import { deleteTariff, loadTariff } from "@/lib/server/rows/tariff";
import { tariffWords } from "@/lib/server/rows/tariff-words";
import { lockCalendar } from "@/lib/server/runs/lock-calendar";

/** Sets what electricity costs, the whole week anew. Plans and bookings stay as they are; only costs shown change. */
export const setTariff = command({
  name: "set-tariff",
  needs: "manage-power",
  input: setTariffSchema,
  run: async ({ tx, who, now, audit }, { currency, bands, standingPerDay }) => {
    const tariff = readTariff({
      currency, standingPerDay,
      bands: bands.map(({ name, weekdays, from, to, price }) => ({ name, weekdays: [...new Set(weekdays)].sort() as Weekday[], fromMin: from, toMin: to, price })),
    });
    if (!tariff.ok) return tariff;
    // One manager after the other, so that the record says what each replaced.
    await lockCalendar({ tx, who, now });
    const before = await loadTariff(tx);
    await deleteTariff(tx);
    const { workshopId } = who;
    await tx.tariff.create({ data: { workshopId, currency, scale: tariff.value.scale, standingPerDay: tariff.value.standingPerDay } });
    await tx.tariffSpan.createMany({
      data: tariff.value.bands.flatMap(({ weekdays, ...band }, position) => weekdays.map((weekday) => ({ workshopId, position, weekday, ...band }))),
    });
    await audit({ subject: "tariff", subjectId: workshopId, ...words("before", before), ...words("after", tariff.value) });
    return ok({ bands: tariff.value.bands.length });
  },
});

function words(key: "before" | "after", tariff: Parameters<typeof tariffWords>[0]) {
  const said = tariffWords(tariff);
  return said === null ? {} : { [key]: said };
}
