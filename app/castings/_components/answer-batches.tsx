import { DataTable, type Column } from "@/app/_components/data-table";
import { LinkButton } from "@/app/_components/link-button";
import { Notice } from "@/app/_components/notice";
import { numberText } from "@/app/_components/number-text";
import { Panel } from "@/app/_components/panel";
import { paths } from "@/lib/contracts/paths";
import { mouldBatches } from "@/lib/domain/firing/casting-batches";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import type { LayerBatch, MouldBatches } from "@/lib/domain/mould/batches";
import { tooThinForMesh } from "@/lib/domain/mould/layers";
import { MIXING_CAUTIONS } from "@/lib/domain/mould/mixing-order";
import type { MeshBody } from "@/lib/domain/shape/mesh/mesh-body";
import { layerName } from "./layer-words";
import styles from "./answer.module.css";

type AnswerBatchesProps = { readonly plan: CastingPlan; readonly input: CastingInput; readonly mesh: MeshBody | undefined; readonly castingId?: string | undefined };

/** The mould coat by coat, and what goes into each bucket. */
export function AnswerBatches({ plan, input, mesh, castingId }: AnswerBatchesProps) {
  if (input.mould === undefined) return null;
  const batches = mouldBatches(input, plan, mesh);
  if (!batches.ok) return <Panel title="Layers to mix"><Notice tone="trouble">{batches.problems[0].message}</Notice></Panel>;
  if (batches.value === null) return null;
  return (
    <Panel title="Layers to mix" lead={lead(batches.value)} actions={castingId !== undefined && <LinkButton href={paths.benchSheet(castingId)}>Bench sheet</LinkButton>}>
      <div className={styles["stack"]}>
        <DataTable caption="Layers of the mould, from the wax outwards" columns={COLUMNS} rows={batches.value.layers} rowKey={layerName} />
        {tooThinForMesh(input.mould.wallMm, plan.glass.pieceKg) && (
          <Notice tone="trouble">This much glass asks for wire mesh in the wall; a wall of {numberText(input.mould.wallMm)} mm cannot cover it. Make it 30 mm or more.</Notice>
        )}
        <p>{MIXING_CAUTIONS[0]}</p>
      </div>
    </Panel>
  );
}

const COLUMNS: readonly Column<LayerBatch>[] = [
  { key: "layer", title: "Layer", cell: (layer) => `${layerName(layer)}${layer.meshBefore ? ", over wire mesh" : ""}` },
  { key: "thick", title: "Wall, from the wax", cell: ({ fromMm, toMm }) => `${numberText(fromMm)} to ${numberText(toMm)} mm` },
  { key: "buckets", title: "Buckets", cell: ({ buckets, eachBucket }) => `${buckets} of ${numberText(eachBucket.volumeL, 1)} L` },
  { key: "water", title: "Water, each", numeric: true, cell: ({ eachBucket }) => kg(eachBucket.waterKg) },
  { key: "plaster", title: "Plaster, each", numeric: true, cell: ({ eachBucket }) => kg(eachBucket.plasterKg) },
  { key: "silica", title: "Silica, each", numeric: true, cell: ({ eachBucket }) => kg(eachBucket.silicaKg) },
];

function kg(value: number): string {
  return `${numberText(value, 2)} kg`;
}

function lead({ layers, buckets, volumeL }: MouldBatches): string {
  return `${layers.length} coats from ${buckets} ${buckets === 1 ? "bucket" : "buckets"}, ${numberText(volumeL, 1)} L in all; each bucket is laid on before it sets.`;
}
