import { query } from "@/lib/server/query";
import { loadEquipment } from "@/lib/server/rows/equipment";
import { kilnsOf } from "@/lib/server/runs/run-question";

export type PowerScreen = { readonly limitKw: number | null; readonly kilns: readonly { readonly name: string; readonly kw: number }[] };

/** The electrician's limit, beside what each kiln draws while it heats. */
export const workshopPower = query<undefined, PowerScreen>({
  name: "workshop-power",
  needs: "manage-power",
  run: async ({ who, tx }) => {
    const { powerLimitKw } = await tx.workshop.findUniqueOrThrow({ where: { workshopId: who.workshopId } });
    const kilns = kilnsOf(await loadEquipment(tx));
    return { limitKw: powerLimitKw, kilns: kilns.map(({ name, limits }) => ({ name, kw: limits.powerKw })) };
  },
});
