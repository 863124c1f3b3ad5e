import { describe, expect, it } from "vitest";
import { inFormWords, isShown } from "@/app/castings/_components/form-problem";
import { checkOwnGlass } from "@/lib/domain/glass/check-own-glass";
import { EMPTY_FORM } from "@/lib/contracts/casting-fields";

const problem = (field: string, message: string) => ({ code: "out-of-range", field, message });

describe("a problem in the words of the form", () => {
  it("calls the field what the form calls it", () => {
    expect(inFormWords(problem("mould.wallMm", "mould.wallMm is 5 mm; it must be 15 to 150 mm."))).toMatchObject({
      field: "mould.wallMm",
      message: "The mould wall is 5 mm; it must be 15 to 150 mm.",
    });
  });

  it("finds the field of an input inside a command, and the first field of a list", () => {
    expect(inFormWords(problem("input.piece.waxKg", "input.piece.waxKg is -1; it must be more than 0."))).toMatchObject({
      field: "piece.waxKg",
      message: "The wax weight is -1; it must be more than 0.",
    });
    expect(inFormWords(problem("piece.sizeMm", "piece.sizeMm must hold three sizes.")).field).toBe("piece.sizeMm.0");
  });

  it("speaks of an expansion in the millionths the form asks for", () => {
    const [told] = checkOwnGlass({ name: "River blue", expansionSolidPerK: 92e-6 });
    expect(told && inFormWords(told).message).toBe("The expansion is 92 millionths per K; it must be 1 to 20 millionths per K.");
  });

  it("leaves sentences of its own, and fields that are not on the form, as they are", () => {
    const own = problem("title", "Give the casting a title.");
    expect(inFormWords(own)).toEqual(own);
    const kiln = problem("kiln.powerKw", "kiln.powerKw is 0.");
    expect(inFormWords(kiln)).toEqual(kiln);
  });
});

it("shows the fields of a choice only under that choice", () => {
  expect(isShown("stress.passingMPa", EMPTY_FORM)).toBe(false);
  expect(isShown("stress.passingMPa", { ...EMPTY_FORM, stress: "own" })).toBe(true);
  expect(isShown("mould.wallMm", { ...EMPTY_FORM, mould: "" })).toBe(false);
  expect(isShown("glass", EMPTY_FORM)).toBe(true);
});
