import { can } from "@/lib/domain/access/roles";
import { startsInHours, type CostGround } from "@/lib/domain/tariff/starts";
import type { Reading } from "@/lib/server/query";
import { loadTariff } from "./tariff";
import { loadHours } from "./workshop-hours";

/** The workshop's tariff, its hours and whether this person may change them. */
export async function costGround({ tx, who }: Reading): Promise<CostGround> {
  const tariff = await loadTariff(tx);
  const { weekly } = await loadHours(tx, who);
  return { tariff, startsMin: startsInHours(weekly), mayManagePower: can(who.roles, "manage-power") };
}
