import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mouldBatches } from "@/lib/domain/firing/casting-batches";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { planFiring } from "@/lib/domain/firing/plan";
import { MOST_BUCKET_L, type LayerBatch, type MouldBatches } from "@/lib/domain/mould/batches";
import { SETTING_WATER_PER_PLASTER } from "@/lib/domain/mould/mix";
import { BRICK, planned, slab } from "../firing/casting-builder";

function batches(input: CastingInput): MouldBatches {
  const outcome = mouldBatches(input, planned(input));
  if (!outcome.ok || outcome.value === null) throw new Error("no batches");
  return outcome.value;
}

const sum = (layers: readonly LayerBatch[], of: (layer: LayerBatch) => number) => layers.reduce((total, layer) => total + of(layer), 0);
/** Rounding of sums only. */
const SAME = 1e-12;

function expectSame(a: number, b: number) {
  expect(Math.abs(a - b)).toBeLessThanOrEqual(SAME * Math.max(1, Math.abs(b)));
}

const length = fc.double({ min: 20, max: 400, noNaN: true });
const piece = fc.oneof(
  length.map((t): CastingInput["piece"] => ({ shape: "slab", sizeMm: [t] })),
  fc.tuple(length, length, length).map((sizeMm): CastingInput["piece"] => ({ shape: "brick", sizeMm })),
  fc.tuple(length, length).map((sizeMm): CastingInput["piece"] => ({ shape: "cylinder", sizeMm })),
  length.map((d): CastingInput["piece"] => ({ shape: "ball", sizeMm: [d] })),
);
const castings = fc.record({
  piece,
  wallMm: fc.double({ min: 10, max: 150, noNaN: true }),
  parts: fc.tuple(fc.double({ min: 0.5, max: 2, noNaN: true }), fc.double({ min: 0, max: 2, noNaN: true }), fc.double({ min: 0.35, max: 0.95, noNaN: true })),
  feeder: fc.option(fc.record({ diameterMm: fc.double({ min: 5, max: 15, noNaN: true }), lengthMm: fc.double({ min: 5, max: 200, noNaN: true }) }), { nil: undefined }),
}).map(({ piece: p, wallMm, parts: [plaster, silica, perPowder], feeder }): CastingInput => ({
  glass: "soda-lime-casting", piece: p, cooling: "all-round", stress: "careful",
  mould: { wallMm, plasterSilicaWater: [plaster, silica, perPowder * (plaster + silica)] },
  ...(feeder === undefined ? {} : { feeder }),
}));

describe("the batches of a mould", () => {
  it("add up to the plan's plaster, silica, water, mass and free and bound water, whatever the casting", () => {
    fc.assert(fc.property(castings, (input) => {
      const plan = planFiring(input);
      fc.pre(plan.ok);
      if (!plan.ok) return;
      const outcome = mouldBatches(input, plan.value);
      if (!outcome.ok || outcome.value === null) throw new Error("no batches");
      const { layers } = outcome.value;
      const { mould } = plan.value;
      expectSame(sum(layers, ({ amounts }) => amounts.plasterKg), mould.plasterKg);
      expectSame(sum(layers, ({ amounts }) => amounts.silicaKg), mould.silicaKg);
      expectSame(sum(layers, ({ amounts }) => amounts.powderKg), mould.powderKg);
      expectSame(sum(layers, ({ amounts }) => amounts.waterKg), mould.waterKg);
      expectSame(sum(layers, ({ amounts }) => amounts.wetKg), mould.wetKg);
      expectSame(sum(layers, ({ freeWaterKg }) => freeWaterKg), mould.freeWaterKg);
      expectSame(sum(layers, ({ boundWaterKg }) => boundWaterKg), mould.boundWaterKg);
    }), { numRuns: 20 });
  });

  it("fill even buckets, none above its most, and no bucket more than are needed", () => {
    fc.assert(fc.property(castings, (input) => {
      fc.pre(planFiring(input).ok);
      const { layers, buckets } = batches(input);
      expect(sum(layers, (layer) => layer.buckets)).toBe(buckets);
      for (const { kind, buckets: n, amounts, eachBucket } of layers) {
        expect(eachBucket.volumeL).toBeLessThanOrEqual(MOST_BUCKET_L[kind] * (1 + 1e-9));
        expect(amounts.volumeL).toBeGreaterThan((n - 1) * MOST_BUCKET_L[kind] * (1 - 1e-9));
        expectSame(eachBucket.plasterKg * n, amounts.plasterKg);
        expectSame(eachBucket.waterKg * n, amounts.waterKg);
      }
    }), { numRuns: 20 });
  });

  it("keep the mix in every bucket, and bind what plaster binds in setting (formula masses)", () => {
    for (const { eachBucket, amounts, freeWaterKg } of batches({ ...BRICK, mould: { wallMm: 40, plasterSilicaWater: [2, 1, 1.5] } }).layers) {
      expect(eachBucket.plasterKg / eachBucket.silicaKg).toBeCloseTo(2, 9);
      expect(eachBucket.waterKg / eachBucket.powderKg).toBeCloseTo(0.5, 9);
      expect(amounts.waterKg - freeWaterKg).toBeCloseTo(SETTING_WATER_PER_PLASTER * amounts.plasterKg, 9);
    }
  });

  /** 200 × 150 × 100 mm in 40 mm of 1:1:1: 7.7 L of shell and 13.2 kg wet, worked out in mould.test.ts. */
  it("of a brick are two small face coats, then whole buckets", () => {
    const { feeder: _none, ...closed } = BRICK;
    const { layers, volumeL } = batches(closed);
    expect(volumeL).toBeCloseTo(7.73, 1);
    expect(layers.map(({ kind, buckets }) => [kind, buckets])).toEqual([["face coat", 1], ["face coat", 1], ["back-up coat", 1], ["jacket", 1]]);
    const [first] = layers;
    // A face of 0.13 m² under 5 mm: 0.65 L, and a little for edges and corners.
    expect(first?.amounts.volumeL).toBeGreaterThan(0.65);
    expect(first?.amounts.volumeL).toBeLessThan(0.71);
  });

  it("are none for bare glass", () => {
    const input = slab(50);
    expect(mouldBatches(input, planned(input))).toEqual({ ok: true, value: null });
  });

  it("are refused where the feeder leaves no wall", () => {
    const input: CastingInput = { ...BRICK, piece: { shape: "ball", sizeMm: [20] }, feeder: { diameterMm: 120, lengthMm: 10 }, mould: { wallMm: 12, plasterSilicaWater: [1, 1, 1] } };
    const outcome = mouldBatches(input, planned(BRICK));
    expect(outcome).toMatchObject({ ok: false, problems: [{ code: "no-wall-left", field: "feeder.diameterMm", value: 120 }] });
  });
});
