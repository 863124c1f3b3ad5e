import type { Tariff } from "@/lib/domain/tariff/tariff";
import { query } from "@/lib/server/query";
import { loadEquipment } from "@/lib/server/rows/equipment";
import { loadTariff } from "@/lib/server/rows/tariff";
import { kilnsOf } from "@/lib/server/runs/run-question";

export type PowerScreen = {
  readonly limitKw: number | null;
  readonly kilns: readonly { readonly name: string; readonly kw: number }[];
  readonly tariff: Tariff | null;
};

/** The electrician's limit, beside what each kiln draws while it heats, and what electricity costs. */
export const workshopPower = query<undefined, PowerScreen>({
  name: "workshop-power",
  needs: "manage-power",
  run: async ({ who, tx }) => {
    const { powerLimitKw } = await tx.workshop.findUniqueOrThrow({ where: { workshopId: who.workshopId } });
    const kilns = kilnsOf(await loadEquipment(tx));
    return { limitKw: powerLimitKw, kilns: kilns.map(({ name, limits }) => ({ name, kw: limits.powerKw })), tariff: await loadTariff(tx) };
  },
});
