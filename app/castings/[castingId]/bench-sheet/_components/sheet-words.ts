import { numberText } from "@/app/_components/number-text";
import type { BenchSheet } from "@/lib/server/queries/bench-sheet";

type Mould = Extract<BenchSheet["mould"], { readonly ok: true }>["value"];

/** "Mette Rask. Wall 40 mm, plaster : silica : water 1 : 1 : 1 by weight, 4 coats from 4 buckets." */
export function sheetLead(owner: string, { wallMm, parts, batches }: Mould): string {
  const { layers, buckets } = batches;
  return `${owner}. Wall ${numberText(wallMm)} mm, plaster : silica : water ${parts.join(" : ")} by weight, ${layers.length} coats from ${buckets} ${buckets === 1 ? "bucket" : "buckets"}.`;
}

export function waterWords({ wetKg, waterKg, freeWaterKg, boundWaterKg, dryKg }: Mould["figures"]): string {
  const kg = (value: number) => `${numberText(value, 2)} kg`;
  return `The wet mould weighs ${kg(wetKg)}. Of ${kg(waterKg)} of water, ${kg(freeWaterKg)} is free and dries out below 100 °C: the mould is dry at ${kg(dryKg)}, weighed. The plaster binds the other ${kg(waterKg - freeWaterKg)}; with what it held before, ${kg(boundWaterKg)} leaves in the kiln.`;
}
