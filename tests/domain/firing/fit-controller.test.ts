import { describe, expect, it } from "vitest";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { BRICK, KILN, planned } from "./casting-builder";

/** A controller that can go as slowly as it likes: steps would need segments of their own. */
const brickWith = (controllerSegments: number): CastingInput => ({ ...BRICK, kiln: { ...KILN, minRateKPerH: 0.05, controllerSegments } });
const programmed = (input: CastingInput) => planned(input).firing.stages.filter((stage) => stage.stage !== "Open");

describe("a program for a controller with few segments", () => {
  const whole = programmed(brickWith(32)).length;

  it("is left as it is when it just fits", () => {
    expect(programmed(brickWith(whole))).toHaveLength(whole);
    expect(programmed(brickWith(whole)).some((stage) => stage.why.startsWith("Two ramps"))).toBe(false);
  });

  it("joins ramps of one stage at the slower rate, and says so, when one segment is missing", () => {
    const fitted = programmed(brickWith(whole - 1));
    expect(fitted).toHaveLength(whole - 1);
    expect(fitted.some((stage) => stage.why.startsWith("Two ramps run as one"))).toBe(true);
    expect(planned(brickWith(whole - 1)).firing.hours).toBeGreaterThanOrEqual(planned(brickWith(whole)).firing.hours);
    expect(planned(brickWith(whole - 1)).warnings.some((text) => text.includes("segments"))).toBe(false);
  });

  it("still reaches every temperature, and only gets longer as segments get fewer", () => {
    for (let segments = 11; segments < whole; segments += 1) {
      let from = 20;
      for (const stage of planned(brickWith(segments)).firing.stages) {
        expect(from + stage.rateKPerH * stage.hours).toBeCloseTo(stage.toC, 6);
        from = stage.toC;
      }
      expect(planned(brickWith(segments)).firing.hours).toBeGreaterThanOrEqual(planned(brickWith(segments + 1)).firing.hours - 1e-9);
    }
  });

  it("warns when even that is not enough, and never leaves a stage out", () => {
    const plan = planned(brickWith(6));
    expect(plan.warnings.some((text) => text.includes("this controller holds 6"))).toBe(true);
    expect(new Set(plan.firing.stages.map((stage) => stage.stage))).toEqual(new Set(planned(BRICK).firing.stages.map((stage) => stage.stage)));
  });
});
