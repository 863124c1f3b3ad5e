import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { coldWorkCautions } from "@/lib/domain/coldworking/cautions";
import { coldWorkPlan } from "@/lib/domain/coldworking/cold-work";
import { facesOf } from "@/lib/domain/coldworking/faces";
import { coldWorkOf } from "@/lib/domain/firing/casting-cold-work";
import { surfaceOf, type Solid } from "@/lib/domain/shape/solid";
import { BRICK } from "../firing/casting-builder";

const length = fc.double({ min: 0.02, max: 0.4, noNaN: true });
const solids = fc.oneof(
  fc.tuple(length, length, length).map(([a, b, c]): Solid => ({ shape: "brick", lengthsM: [a, b, c] })),
  fc.tuple(length, length).map(([diameterM, heightM]): Solid => ({ shape: "cylinder", diameterM, heightM })),
  length.map((diameterM): Solid => ({ shape: "ball", diameterM })),
);
/** A face of 100 cm²: a slab without edges to speak of. */
const FACE: Solid = { shape: "slab", thicknessM: 1e-9, sideM: Math.sqrt(0.005) };

describe("the surface to work", () => {
  it("is all of the solid's, shared between flat and round", () => {
    fc.assert(fc.property(solids, (solid) => {
      const { flatM2, roundM2 } = facesOf(solid);
      expect(flatM2 + roundM2).toBeCloseTo(surfaceOf(solid), 12);
    }));
  });

  it("of a cylinder has flat ends and a round side", () => {
    const { flatM2, roundM2 } = facesOf({ shape: "cylinder", diameterM: 0.1, heightM: 0.2 });
    expect(flatM2).toBeCloseTo(2 * (Math.PI / 4) * 0.01, 12);
    expect(roundM2).toBeCloseTo(Math.PI * 0.1 * 0.2, 12);
  });

  it("is worked as somebody says, where the shape does not tell", () => {
    expect(facesOf({ shape: "brick", lengthsM: [0.1, 0.1, 0.1] }, "round")).toEqual({ flatM2: 0, roundM2: expect.closeTo(0.06, 12) });
  });
});

describe("the hours of cold work", () => {
  /** 60 to 400 about 6 h a face on a flat-bed disc; 20 to 25 h a face in all on a vibrating lap. Neither gives the size of its face. */
  it("hold both published accounts in their range, for a face of 100 cm²", () => {
    const { works: [flat], hours } = coldWorkPlan(FACE);
    const ground = flat?.steps.filter(({ name }) => name.startsWith("F")).reduce((sum, step) => sum + step.hours.about, 0) ?? NaN;
    expect(ground).toBeGreaterThan(5);
    expect(ground).toBeLessThan(7);
    expect(hours.from).toBeLessThan(20);
    expect(hours.to).toBeGreaterThan(25);
  });

  it("grow with the area and are the sum of their steps", () => {
    fc.assert(fc.property(solids, fc.double({ min: 1.1, max: 3, noNaN: true }), (solid, factor) => {
      const { hours, works } = coldWorkPlan(solid);
      const bigger = solid.shape === "ball" ? { ...solid, diameterM: solid.diameterM * factor } : solid.shape === "cylinder" ? { ...solid, diameterM: solid.diameterM * factor, heightM: solid.heightM * factor } : solid.shape === "brick" ? { ...solid, lengthsM: solid.lengthsM.map((l) => l * factor) as [number, number, number] } : solid;
      expect(coldWorkPlan(bigger).hours.about / hours.about).toBeCloseTo(factor ** 2, 6);
      expect(works.flatMap(({ steps }) => steps).reduce((sum, step) => sum + step.hours.about, 0)).toBeCloseTo(hours.about, 6);
      expect(hours.from).toBeLessThan(hours.about);
      expect(hours.about).toBeLessThan(hours.to);
    }));
  });

  it("are more on a rough surface and fewer on a smooth one", () => {
    const about = (surface: "smooth" | "usual" | "rough") => coldWorkPlan(FACE, surface).hours.about;
    expect(about("smooth")).toBeLessThan(about("usual"));
    expect(about("rough")).toBeGreaterThan(about("usual"));
  });

  it("end in pre-polish and polish, and say what every face loses", () => {
    const { works: [flat], offMm } = coldWorkPlan(FACE);
    expect(flat?.steps.map(({ name }) => name)).toEqual(["F80", "F150", "F280", "F400", "pre-polish", "polish"]);
    expect(offMm).toBeCloseTo(1 + 3 * (0.185 + 0.082 + 0.0365 + 0.0173 + 0.008), 6);
  });
});

describe("a casting's cold work", () => {
  it("is that of its solid, and refused for a mesh whose body is not at hand", () => {
    expect(coldWorkOf(BRICK)).toMatchObject({ ok: true, value: { works: [{ work: "flat", areaM2: expect.closeTo(0.13, 9) }] } });
    expect(coldWorkOf({ ...BRICK, piece: { shape: "mesh", file: "figure.stl" } })).toMatchObject({ ok: false, problems: [{ code: "mesh-not-read" }] });
  });

  it("warns of lead where the glass may hold it, and of water, dust and local rules always", () => {
    expect(coldWorkCautions(true).join(" ")).toMatch(/lead waste/);
    for (const lead of [true, false]) expect(coldWorkCautions(lead).join(" ")).toMatch(/Grind wet.*residual-current.*Local rules/s);
    expect(coldWorkCautions(false).join(" ")).not.toMatch(/holds lead/);
  });
});
