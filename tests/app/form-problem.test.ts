import { describe, expect, it } from "vitest";
import { inFormWords as worded, isShown } from "@/app/castings/_components/form-problem";
import { checkOwnGlass } from "@/lib/domain/glass/check-own-glass";
import type { Problem } from "@/lib/domain/refusal";
import { EMPTY_FORM } from "@/lib/contracts/casting-fields";

const inWords = (told: Problem, shape = "brick") => worded(told, shape);
const problem = (field: string, message: string) => ({ code: "out-of-range", field, message });

describe("a problem in the words of the form", () => {
  it("calls the field what the form calls it", () => {
    expect(inWords(problem("mould.wallMm", "mould.wallMm is 5 mm; it must be 15 to 150 mm."))).toMatchObject({
      field: "mould.wallMm",
      message: "The mould wall is 5 mm; it must be 15 to 150 mm.",
    });
  });

  it("finds the field of an input inside a command, and the first field of a list", () => {
    expect(inWords(problem("input.piece.waxKg", "input.piece.waxKg is -1; it must be more than 0."))).toMatchObject({
      field: "piece.waxKg",
      message: "The wax weight is -1; it must be more than 0.",
    });
    expect(inWords(problem("piece.sizeMm", "piece.sizeMm needs three lengths."))).toMatchObject({ field: "piece.sizeMm.0", message: "The size needs three lengths." });
  });

  it("leads what is said of a mesh's file to the mesh", () => {
    expect(inWords(problem("piece.file", "piece.file makes 4.00 litres, but 1 kg of wax is 1.08 litres."), "mesh")).toMatchObject({ field: "piece.meshId", message: "The mesh makes 4.00 litres, but 1 kg of wax is 1.08 litres." });
    expect(inWords(problem("piece.file", "piece.file, side 1 of its box, is 5000 mm."), "mesh").message).toBe("The mesh, side 1 of its box, is 5000 mm.");
    expect(isShown("piece.meshId", { ...EMPTY_FORM, "piece.shape": "mesh" })).toBe(true);
    expect(isShown("piece.meshId", EMPTY_FORM)).toBe(false);
    expect(isShown("piece.thickestMm", { ...EMPTY_FORM, "piece.shape": "mesh" })).toBe(false);
  });

  it("calls the sizes what they measure on the shape", () => {
    const wide = problem("piece.sizeMm.1", "piece.sizeMm.1 is 0 mm; it must be 2 to 3000 mm.");
    expect(inWords(wide).message).toBe("The depth is 0 mm; it must be 2 to 3000 mm.");
    expect(inWords(wide, "cylinder").message).toBe("The height is 0 mm; it must be 2 to 3000 mm.");
  });

  it("speaks of an expansion in the millionths the form asks for", () => {
    const [told] = checkOwnGlass({ name: "River blue", expansionSolidPerK: 92e-6 });
    expect(told && inWords(told).message).toBe("The expansion is 92 millionths per K; it must be 1 to 20 millionths per K.");
  });

  it("leaves sentences of its own, and fields that are not on the form, as they are", () => {
    const own = problem("title", "Give the casting a title.");
    expect(inWords(own)).toEqual(own);
    const kiln = problem("kiln.powerKw", "kiln.powerKw is 0.");
    expect(inWords(kiln)).toEqual(kiln);
  });
});

it("shows the fields of a choice only under that choice", () => {
  expect(isShown("stress.passingMPa", EMPTY_FORM)).toBe(false);
  expect(isShown("stress.passingMPa", { ...EMPTY_FORM, stress: "own" })).toBe(true);
  expect(isShown("mould.wallMm", { ...EMPTY_FORM, mould: "" })).toBe(false);
  expect(isShown("glass", EMPTY_FORM)).toBe(true);
});
