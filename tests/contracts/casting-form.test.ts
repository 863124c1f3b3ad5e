import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Casting } from "@/lib/contracts/casting";
import { castingFormFrom, EMPTY_FORM, type CastingField, type CastingForm } from "@/lib/contracts/casting-fields";
import { readCasting, readCastingForm } from "@/lib/contracts/casting-form";
import { formOf } from "@/lib/contracts/casting-form-of";
import type { Outcome } from "@/lib/domain/refusal";

const filled: CastingForm = {
  ...EMPTY_FORM,
  title: "Tide bowl",
  glass: "soda-lime-casting",
  "piece.sizeMm.0": "200",
  "piece.sizeMm.1": "150",
  "piece.sizeMm.2": "100",
  "mould.wallMm": "40",
  "feeder.diameterMm": "30",
  "feeder.lengthMm": "60",
};

const form = (over: Partial<CastingForm> = {}): CastingForm => ({ ...filled, ...over });
const problemsIn = (outcome: Outcome<unknown>) => (outcome.ok ? [] : outcome.problems);
const input = (over: Partial<CastingForm> = {}) => {
  const read = readCastingForm(form(over));
  if (!read.ok) throw new Error(read.problems.map((problem) => problem.message).join(" "));
  return read.value;
};

describe("reading the casting form", () => {
  it("leaves out what was left empty", () => {
    expect(input()).toEqual({
      glass: "soda-lime-casting",
      piece: { shape: "brick", sizeMm: [200, 150, 100] },
      cooling: "all-round",
      mould: { wallMm: 40, plasterSilicaWater: [1, 1, 1] },
      feeder: { diameterMm: 30, lengthMm: 60 },
      stress: "careful",
    });
  });

  it("takes only as many sizes as the shape has, whatever was typed for another shape before", () => {
    expect(input({ "piece.shape": "cylinder" }).piece.sizeMm).toEqual([200, 150]);
    expect(input({ "piece.shape": "ball", "piece.sizeMm.1": "" }).piece.sizeMm).toEqual([200]);
  });

  describe("with a mesh", () => {
    const meshId = "5b7c0c3e-7d0c-4a53-9a53-0e6f3f4f8a11";
    const mesh = { "piece.shape": "mesh", "piece.meshId": meshId, "piece.thickestMm": "50", "piece.waxKg": "2" };
    const conduction = { maxM2: 1e-3, meanM2: 5e-4, thickestAtM: [0.1, 0.1, 0.1] as const };
    const body = { ...conduction, boxM: [0.2, 0.2, 0.2] as const, volumeM3: 0.004, surfaceM2: 0.1, openFace: null };

    it("takes the mesh and the wax, and neither sizes nor a thickness typed before", () => {
      expect(input(mesh).piece).toEqual({ shape: "mesh", meshId, waxKg: 2 });
    });
    it("says that the mesh is still missing", () => {
      expect(problemsIn(readCastingForm(form({ ...mesh, "piece.meshId": "" })))).toMatchObject([{ code: "missing", field: "piece.meshId" }]);
    });
    it("takes the customary wall for its volume when none is typed", () => {
      const read = readCastingForm(form({ ...mesh, "piece.waxKg": "", "mould.wallMm": "" }), body);
      const block = readCastingForm(form({ "mould.wallMm": "", "piece.sizeMm.0": "200", "piece.sizeMm.1": "200", "piece.sizeMm.2": "100" }));
      expect(read.ok && read.value.mould).toEqual(block.ok && block.value.mould);
    });
    it("comes back from its stored casting", () => {
      const stored: Casting = { title: "Reef", neededBy: null, input: { ...input(), piece: { shape: "mesh", meshId, waxKg: 2 } } };
      expect(readCasting(formOf(stored))).toEqual({ ok: true, value: stored });
    });
  });

  it("leaves mould and feeder out when there is none, whatever stands in their fields", () => {
    const bare = input({ mould: "", feeder: "yes", "mould.wallMm": "none", "feeder.lengthMm": "none" });
    expect(bare).not.toHaveProperty("mould");
    expect(bare).not.toHaveProperty("feeder");
  });

  it("reads an own glass, its expansion in millionths", () => {
    const own = { glass: "own", "glass.name": "River blue", "glass.densityKgM3": "2600", "glass.expansionSolidPerK": "9.2" };
    expect(input(own).glass).toEqual({ name: "River blue", densityKgM3: 2600, expansionSolidPerK: 9.2e-6 });
  });

  it("takes own stress limits", () => {
    expect(input({ stress: "own", "stress.permanentMPa": "0.2", "stress.passingMPa": "1" }).stress).toEqual({ permanentMPa: 0.2, passingMPa: 1 });
  });

  it.each([
    ["37,5", 37.5],
    [" 40 ", 40],
    ["1 200.5", 1200.5],
    ["1200", 1200],
    ["0,125", 0.125],
    ["1.5e-3", 0.0015],
  ])("reads “%s” as %d", (typed, value) => {
    expect(input({ "mould.wallMm": typed }).mould?.wallMm).toBe(value);
  });

  it("refuses a number that could be read in two ways", () => {
    expect(problemsIn(readCastingForm(form({ "mould.wallMm": "1,200" })))).toMatchObject([
      { code: "unclear", field: "mould.wallMm", value: "1,200", message: "The mould wall is “1,200”, which could mean 1200 or 1.200; write the one you mean." },
    ]);
  });

  it.each(["forty", "4o", "1e", "--2", "12mm", "1.2.3", "NaN", "Infinity"])("refuses “%s”, naming field, value and what is allowed", (typed) => {
    expect(problemsIn(readCastingForm(form({ "mould.wallMm": typed })))).toEqual([
      {
        code: "wrong-type",
        field: "mould.wallMm",
        value: typed,
        allowed: "10 to 150 mm",
        message: `The mould wall is “${typed}”; it must be a number, 10 to 150 mm.`,
      },
    ]);
  });

  it("tells all faults at once", () => {
    const problems = problemsIn(readCasting(form({ title: "", neededBy: "soon", "piece.sizeMm.0": "wide", processC: "hot" })));
    expect(problems.map((problem) => problem.field)).toEqual(["title", "neededBy", "piece.sizeMm.0", "processC"]);
  });

  it("says apart from faults what is still missing", () => {
    const problems = problemsIn(readCastingForm(EMPTY_FORM));
    expect(new Set(problems.map((problem) => problem.code))).toEqual(new Set(["missing"]));
    expect(problems.map((problem) => problem.field)).toEqual([
      "glass", "piece.sizeMm.0", "piece.sizeMm.1", "piece.sizeMm.2",
    ]);
  });

  it("takes the suggested wall when none is typed: from the wax when it was weighed, else from the shape", () => {
    expect(input({ "mould.wallMm": "" }).mould?.wallMm).toBe(44); // 3 L of 2.5 kg/L: 20 + 12·∛7.5 = 43.5
    expect(input({ "mould.wallMm": "", "piece.waxKg": "0.93" }).mould?.wallMm).toBe(37); // 1 L, 2.5 kg: 36.3
  });
});

const number = fc.oneof(fc.integer({ min: 1, max: 2000 }), fc.double({ min: 1e-9, max: 5000, noNaN: true, noDefaultInfinity: true }));
const optional = <T>(key: string, value: fc.Arbitrary<T>) => fc.option(value, { nil: undefined }).map((v) => (v === undefined ? {} : { [key]: v }));
const merged = (...parts: fc.Arbitrary<object>[]) => fc.tuple(...parts).map((all) => Object.assign({}, ...all) as object);
const shape = fc.oneof(
  fc.tuple(number, number, number).map((sizeMm) => ({ shape: "brick", sizeMm })),
  fc.tuple(number, number).map((sizeMm) => ({ shape: "cylinder", sizeMm })),
  number.map((size) => ({ shape: "ball", sizeMm: [size] })),
  number.map((size) => ({ shape: "slab", sizeMm: [size] })),
);
const ownGlass = merged(
  fc.constant({ name: "River blue" }),
  optional("densityKgM3", number),
  optional("expansionSolidPerK", fc.integer({ min: 1, max: 300 }).map((tenths) => Number(`${tenths / 10}e-6`))),
  optional("youngGPa", number),
  optional("viscosity", fc.record({ A: fc.constant(-2.5), B: number, T0C: number })),
);
const casting = fc.record({
  title: fc.constantFrom("Tide bowl", "Reed, no. 3"),
  neededBy: fc.constantFrom(null, "2027-03-14"),
  input: merged(
    fc.record({
      glass: fc.oneof(fc.constantFrom("lead-crystal-45", "borosilicate-33"), ownGlass),
      piece: fc.tuple(shape, optional("waxKg", number), optional("thickestMm", number)).map((all) => Object.assign({}, ...all) as object),
      cooling: fc.constantFrom("all-round", "one-face"),
      stress: fc.oneof(fc.constant("careful"), fc.record({ permanentMPa: number, passingMPa: number })),
    }),
    // A feeder is asked for with its mould only.
    fc.oneof(fc.constant({}), merged(
      fc.record({ mould: merged(fc.record({ wallMm: number, plasterSilicaWater: fc.tuple(number, number, number) }), optional("driedBeforeLoading", fc.constant(true))) }),
      optional("feeder", merged(fc.record({ diameterMm: number, lengthMm: number }), optional("waxKg", number))),
    )),
    optional("processC", number),
  ),
}) as fc.Arbitrary<object> as fc.Arbitrary<Casting>;

describe("a stored casting in the form", () => {
  it("comes back as it was, own glass properties without a field included", () => {
    fc.assert(
      fc.property(casting, (stored) => {
        expect(readCasting(formOf(stored))).toEqual({ ok: true, value: stored });
      }),
    );
  });

  it("survives being posted", () => {
    const posted = new FormData();
    for (const [field, value] of Object.entries(form({ neededBy: "2027-03-14" }))) posted.set(field, value);
    posted.set("something-else", "1");
    expect(castingFormFrom(posted)).toEqual(form({ neededBy: "2027-03-14" }));
  });

  it("posts unticked boxes and files as empty", () => {
    const posted = new FormData();
    posted.set("title" satisfies CastingField, new File([], "x"));
    expect(castingFormFrom(posted).title).toBe("");
  });
});
