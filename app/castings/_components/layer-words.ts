import type { LayerBatch } from "@/lib/domain/mould/batches";

const WORDS: Readonly<Record<LayerBatch["kind"], string>> = { "face coat": "Face coat", "back-up coat": "Back-up coat", jacket: "Jacket" };

/** "Face coat 1 of 2", "Jacket". */
export function layerName({ kind, number, of }: Pick<LayerBatch, "kind" | "number" | "of">): string {
  return of === 1 ? WORDS[kind] : `${WORDS[kind]} ${number} of ${of}`;
}
