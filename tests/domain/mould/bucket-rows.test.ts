import fc from "fast-check";
import { expect, it } from "vitest";
import { mouldBatches } from "@/lib/domain/firing/casting-batches";
import { bucketRows } from "@/lib/domain/mould/bucket-rows";
import { BRICK, planned } from "../firing/casting-builder";

it("weighs, bucket by bucket in the order of the work, what adds up to the plan to 10 g", () => {
  fc.assert(fc.property(fc.integer({ min: 100, max: 400 }), fc.integer({ min: 20, max: 75 }), (side, wallMm) => {
    const input = { ...BRICK, piece: { shape: "brick", sizeMm: [side, side, 80] }, mould: { wallMm, plasterSilicaWater: [1, 1, 1] } } as const;
    const { kiln: _kiln, ...unfired } = input;
    const plan = planned(unfired);
    const outcome = mouldBatches(unfired, plan);
    if (!outcome.ok || outcome.value === null) throw new Error("no batches");
    const rows = bucketRows(outcome.value);
    expect(rows.map(({ number }) => number)).toEqual(rows.map((_, at) => at + 1));
    expect(rows).toHaveLength(outcome.value.buckets);
    const total = (of: "waterKg" | "plasterKg" | "silicaKg") => rows.reduce((sum, row) => sum + row[of], 0);
    for (const of of ["waterKg", "plasterKg", "silicaKg"] as const) expect(total(of)).toBeCloseTo(Math.round(plan.mould[of] * 100) / 100, 6);
    for (const [at, { layer }] of rows.entries()) expect(layer.fromMm).toBeGreaterThanOrEqual(rows[at - 1]?.layer.fromMm ?? 0);
  }), { numRuns: 15 });
});
