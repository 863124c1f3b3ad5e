import { describe, expect, it } from "vitest";
import { readCastingInput } from "@/lib/contracts/casting-input";

const slab = { glass: "soda-lime-casting", piece: { shape: "slab", sizeMm: [25] }, cooling: "all-round", stress: "careful" };

function problemsIn(input: unknown) {
  const read = readCastingInput(input);
  return read.ok ? [] : read.problems;
}

describe("the shape of a casting", () => {
  it("takes the smallest casting", () => {
    expect(readCastingInput(slab)).toEqual({ ok: true, value: slab });
  });

  it("takes keys that are present but undefined as left out", () => {
    expect(readCastingInput({ ...slab, mould: undefined, piece: { ...slab.piece, waxKg: undefined } })).toEqual({ ok: true, value: slab });
  });

  it("refuses unknown keys by their whole path", () => {
    const problems = problemsIn({ ...slab, colour: "blue", piece: { ...slab.piece, waxLb: 2 } });
    expect(problems.map((problem) => [problem.code, problem.field])).toEqual([
      ["unknown-key", "piece.waxLb"],
      ["unknown-key", "colour"],
    ]);
    expect(problems[0]?.message).toBe("piece.waxLb is not a known field of piece; take it out or correct its name.");
  });

  it("names an unknown key inside an own glass and inside a stress level", () => {
    const problems = problemsIn({ ...slab, glass: { name: "Blue", density: 2500 }, stress: { permanentMPa: 0.4, passingMPa: 1, both: 2 } });
    expect(problems.map((problem) => problem.field)).toEqual(["glass.density", "stress.both"]);
  });

  it("says what is missing and what it must be", () => {
    expect(problemsIn({ ...slab, cooling: undefined })[0]).toMatchObject({
      code: "missing",
      field: "cooling",
      message: 'cooling is missing; it must be one of "all-round", "one-face".',
    });
  });

  it("tells all faults at once, with field, value and what is allowed", () => {
    const problems = problemsIn({ ...slab, cooling: "below", mould: { wallMm: "forty", plasterSilicaWater: [1, 1] } });
    expect(problems.map((problem) => problem.field)).toEqual(["cooling", "mould.wallMm", "mould.plasterSilicaWater"]);
    expect(problems[1]).toMatchObject({ value: "forty", allowed: "a number", message: 'mould.wallMm is "forty"; it must be a number.' });
  });

  it("refuses a glass that is neither in the catalogue nor a set of properties", () => {
    expect(problemsIn({ ...slab, glass: "window" })[0]).toMatchObject({ field: "glass", value: "window" });
    expect(problemsIn({ ...slab, glass: 3 })[0]).toMatchObject({ field: "glass", value: 3 });
  });

  it("refuses NaN and infinity, which a form can produce", () => {
    const problems = problemsIn({ ...slab, piece: { shape: "slab", sizeMm: [NaN] }, processC: Infinity });
    expect(problems.map((problem) => problem.field)).toEqual(["piece.sizeMm.0", "processC"]);
    expect(problems[0]?.message).toBe("piece.sizeMm.0 is NaN; it must be a number.");
  });

  it.each([[null], [undefined], [[]], ["text"], [7]])("refuses %j as a whole", (input) => {
    expect(problemsIn(input).length).toBeGreaterThan(0);
  });
});
