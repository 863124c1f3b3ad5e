import type { Layer } from "@/lib/domain/mould/layers";
import type { LayerBatch, MouldBatches } from "./batches";
import { partsThatAddUp } from "./parts-that-add-up";

/** What to weigh for one bucket, kg, in steps of the scales. */
export type BucketRow = {
  readonly number: number;
  readonly layer: Layer;
  readonly waterKg: number;
  readonly plasterKg: number;
  readonly silicaKg: number;
};

/** A bench scale reads 10 g (common practice, no source). */
export const SCALE_STEP_KG = 0.01;

/** Every bucket of a mould in the order of the work; each column adds up to the plan's own figure as the scales show it. */
export function bucketRows({ layers }: MouldBatches): readonly BucketRow[] {
  const each = layers.flatMap((layer) => Array.from({ length: layer.buckets }, () => layer));
  const column = (of: (layer: LayerBatch) => number) => partsThatAddUp(each.map(of), SCALE_STEP_KG);
  const water = column(({ eachBucket }) => eachBucket.waterKg);
  const plaster = column(({ eachBucket }) => eachBucket.plasterKg);
  const silica = column(({ eachBucket }) => eachBucket.silicaKg);
  return each.map((layer, at) => ({ number: at + 1, layer, waterKg: water[at] ?? 0, plasterKg: plaster[at] ?? 0, silicaKg: silica[at] ?? 0 }));
}
