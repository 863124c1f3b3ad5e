import { DataTable, type Column } from "@/app/_components/data-table";
import { numberText } from "@/app/_components/number-text";
import { TickBox } from "@/app/_components/tick-box";
import { layerName } from "@/app/castings/_components/layer-words";
import type { MouldBatches } from "@/lib/domain/mould/batches";
import { bucketRows, type BucketRow } from "@/lib/domain/mould/bucket-rows";

type Line = Pick<BucketRow, "waterKg" | "plasterKg" | "silicaKg"> & { readonly key: string; readonly name: string; readonly layer: string; readonly tick: boolean };

const COLUMNS: readonly Column<Line>[] = [
  { key: "bucket", title: "Bucket", cell: ({ name }) => name },
  { key: "layer", title: "Layer", cell: ({ layer }) => layer },
  { key: "water", title: "Water", numeric: true, cell: ({ waterKg }) => kg(waterKg) },
  { key: "plaster", title: "Plaster", numeric: true, cell: ({ plasterKg }) => kg(plasterKg) },
  { key: "silica", title: "Silica", numeric: true, cell: ({ silicaKg }) => kg(silicaKg) },
  { key: "done", title: "Done", cell: ({ tick }) => (tick ? <TickBox /> : null) },
];

/** Every bucket with what to weigh for it, a box to tick on paper, and what they add up to. */
export function BucketTable({ batches }: { readonly batches: MouldBatches }) {
  const rows = bucketRows(batches);
  const lines = rows.map(({ number, layer, ...weighed }): Line => ({
    ...weighed, key: String(number), name: String(number), tick: true,
    layer: `${layerName(layer)}, to ${numberText(layer.toMm)} mm from the wax${opensMesh(rows, number) ? ", over wire mesh" : ""}`,
  }));
  const sum = (of: "waterKg" | "plasterKg" | "silicaKg") => rows.reduce((total, row) => total + row[of], 0);
  const total: Line = { key: "total", name: "All", layer: "", tick: false, waterKg: sum("waterKg"), plasterKg: sum("plasterKg"), silicaKg: sum("silicaKg") };
  return <DataTable caption="What to weigh for each bucket" columns={COLUMNS} rows={[...lines, total]} rowKey={({ key }) => key} />;
}

/** The first bucket of a layer that mesh is laid under. */
function opensMesh(rows: readonly BucketRow[], number: number): boolean {
  const row = rows[number - 1];
  return row?.layer.meshBefore === true && rows[number - 2]?.layer !== row.layer;
}

function kg(value: number): string {
  return `${numberText(value, 2)} kg`;
}
