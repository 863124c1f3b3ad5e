import { describe, expect, it } from "vitest";
import { handsFor } from "@/lib/domain/lifting/hands";

const WAIST = { height: "knuckle-elbow", reach: "near" } as const;

describe("how many people a mass asks for", () => {
  // 16 kg: HSE INDG143, women, knuckle to elbow, near. Two: 2/3 of 32; three: 1/2 of 48 (HSE L23).
  it.each([
    [15.9, 1, false, "none"],
    [16, 1, false, "none"],
    [16.1, 2, false, "amber"],
    [21.3, 2, false, "amber"],
    [21.4, 3, false, "amber"],
    [24, 3, false, "amber"],
    [24.1, 2, true, "red"],
    [80, 2, true, "red"],
  ] as const)("%s kg at the waist: %s people, aid %s, %s", (kg, hands, mechanicalAid, flag) => {
    expect(handsFor(kg, WAIST)).toMatchObject({ hands, mechanicalAid, flag });
  });

  it("asks for more care further away from the body", () => {
    expect(handsFor(12, WAIST).hands).toBe(1);
    expect(handsFor(12, { height: "knuckle-elbow", reach: "far" }).hands).toBe(2);
  });

  it("never offers four people", () => {
    for (let kg = 0; kg < 300; kg += 0.5) expect(handsFor(kg, WAIST).hands).toBeLessThanOrEqual(3);
  });

  it("gives the most careful answer for a mass that is not a number", () => {
    expect(handsFor(NaN, WAIST)).toMatchObject({ mechanicalAid: true, flag: "red" });
  });
});
