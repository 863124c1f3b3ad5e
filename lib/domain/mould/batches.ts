import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { layersOf, type Layer, type LayerKind } from "@/lib/domain/mould/layers";
import { shellVolume } from "@/lib/domain/mould/shell";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import type { Solid } from "@/lib/domain/shape/solid";
import { litres, metres } from "@/lib/domain/units";

/** Masses in kg, volume in L of mixed investment. */
export type Amounts = {
  readonly volumeL: number;
  readonly plasterKg: number;
  readonly silicaKg: number;
  readonly powderKg: number;
  readonly waterKg: number;
  readonly wetKg: number;
};

export type LayerBatch = Layer & {
  readonly amounts: Amounts;
  /** Dries out below 100 °C. */
  readonly freeWaterKg: number;
  /** Leaves in the kiln above 100 °C. */
  readonly boundWaterKg: number;
  /** Even buckets, one mixed after the other. */
  readonly buckets: number;
  readonly eachBucket: Amounts;
};

export type MouldBatches = { readonly layers: readonly LayerBatch[]; readonly buckets: number; readonly volumeL: number };

type Mixed = {
  readonly solid: Solid;
  readonly wallMm: number;
  readonly feeder: { readonly diameterM: number; readonly lengthM: number } | undefined;
  /** The plan's own figures: the batches add up to these. */
  readonly mould: CastingPlan["mould"];
  readonly glassKg: number;
};

/**
 * The most that one person lays on before it thickens, 15 to 20 minutes after mixing (published mould
 * practice): a face coat is brushed and takes longest. Litres; common practice, no source. 6 L of equal
 * parts weigh 10 kg, which one person carries.
 */
export const MOST_BUCKET_L: Readonly<Record<LayerKind, number>> = { "face coat": 3, "back-up coat": 6, jacket: 6 };

/**
 * The mould's mix layer by layer and bucket by bucket. A layer is what lies between two shells around
 * the piece, so the layers are the whole shell and their amounts the plan's, to rounding of sums.
 * Refused when the feeder takes so much out of the wall that a layer has nothing left.
 */
export function batchesOf({ solid, wallMm, feeder, mould, glassKg }: Mixed): Outcome<MouldBatches> {
  const inside = (mm: number): number => (mm === 0 ? 0 : shellVolume(solid, metres(mm), feeder));
  const whole = inside(wallMm);
  const layers = layersOf(wallMm, glassKg).map((layer) => ({ layer, share: (inside(layer.toMm) - inside(layer.fromMm)) / whole }));
  if (!(whole > 0) || layers.some(({ share }) => !(share > 0))) {
    const diameterMm = feeder === undefined ? undefined : feeder.diameterM * 1000;
    return refuse({
      code: "no-wall-left", field: "feeder.diameterMm", value: diameterMm, allowed: "narrower than the piece",
      message: `A feeder of ${diameterMm?.toFixed(0) ?? "no"} mm leaves no wall around this piece; it must be narrower than the piece.`,
    });
  }
  const volumeL = litres(whole);
  const mixed = layers.map(({ layer, share }) => layerBatch(layer, share, volumeL, mould));
  return ok({ layers: mixed, buckets: mixed.reduce((sum, { buckets }) => sum + buckets, 0), volumeL });
}

function layerBatch(layer: Layer, share: number, volumeL: number, mould: CastingPlan["mould"]): LayerBatch {
  const amounts = shared(share, volumeL, mould);
  const buckets = Math.ceil(amounts.volumeL / MOST_BUCKET_L[layer.kind] - 1e-9);
  return {
    ...layer,
    amounts,
    freeWaterKg: share * mould.freeWaterKg,
    boundWaterKg: share * mould.boundWaterKg,
    buckets,
    eachBucket: shared(share / buckets, volumeL, mould),
  };
}

function shared(share: number, volumeL: number, mould: CastingPlan["mould"]): Amounts {
  return {
    volumeL: share * volumeL,
    plasterKg: share * mould.plasterKg,
    silicaKg: share * mould.silicaKg,
    powderKg: share * mould.powderKg,
    waterKg: share * mould.waterKg,
    wetKg: share * mould.wetKg,
  };
}
