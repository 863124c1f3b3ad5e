import { describe, expect, it } from "vitest";
import { readCastingInput } from "@/lib/contracts/casting-input";
import { readPlannedInput } from "@/lib/contracts/planned-input";

const kiln = { insideMm: [600, 600, 600], powerKw: 9, lossWPerK: 5.2, heatCapacityKJPerK: 45, maxC: 950 };
const slab = { glass: "soda-lime-casting", piece: { shape: "slab", sizeMm: [25] }, cooling: "all-round", stress: "careful" };
const margin = { factor: 1.4, firings: 7, sufficed: 6 };

describe("what a stored plan was made from", () => {
  it("is a casting, with or without its kiln and the kiln's own margin", () => {
    for (const input of [slab, { ...slab, kiln }, { ...slab, kiln: { ...kiln, margin } }]) expect(readPlannedInput(input)).toEqual({ ok: true, value: input });
  });

  it("knows no other keys", () => {
    expect(readPlannedInput({ ...slab, kiln: { ...kiln, margin: { ...margin, hours: 3 } } })).toMatchObject({ ok: false, problems: [{ code: "unknown-key", field: "kiln.margin.hours" }] });
  });

  it.each([{ factor: NaN }, { firings: 2.5 }, { sufficed: -1 }])("refuses a margin with %j", (wrong) => {
    expect(readPlannedInput({ ...slab, kiln: { ...kiln, margin: { ...margin, ...wrong } } }).ok).toBe(false);
  });

  it("brings no margin into a casting that a person or a program describes", () => {
    expect(readCastingInput({ ...slab, kiln: { ...kiln, margin } })).toMatchObject({ ok: false, problems: [{ code: "unknown-key", field: "kiln.margin" }] });
  });
});
