import { describe, expect, it } from "vitest";
import { markOf } from "@/app/castings/_components/mesh-mark";
import { axesOf, FIRST_VIEW, turnedBy } from "@/app/castings/_components/mesh-view";
import { factsOf, stepText, thickPlace, unitDoubt } from "@/app/castings/_components/mesh-words";
import { stillOf } from "@/app/castings/_components/still-faces";
import { drawnSurface } from "@/lib/domain/shape/mesh/drawn-surface";
import { meshBody, type MeshBody } from "@/lib/domain/shape/mesh/mesh-body";
import type { MeshUnit } from "@/lib/domain/shape/mesh/turned";
import { ballMesh, brickMesh } from "../domain/shape/sample-meshes";

const outcome = meshBody(brickMesh(0.12, 0.03, 0.02), 48);
if (!outcome.ok) throw new Error(outcome.problems[0].message);
const body: MeshBody = outcome.value;
const longest = (longestMm: number, unit: MeshUnit) => ({ unit, body: { ...body, boxM: [longestMm / 1000, 0.01, 0.01] as const } });

describe("a mesh in words", () => {
  it("gives box, volume, surface and the slab that cools alike", () => {
    expect(factsOf(body, "all-round").map(({ amount }) => amount)).toEqual(["120 × 30 × 20 mm", "0.07 L", "132 cm²", expect.stringMatching(/^1[78] mm$/)]);
    expect(factsOf(body, "one-face").at(-1)?.amount).toBe("40 mm");
  });

  it("says where it is thickest: in the middle all round, at the foot when only the top is open", () => {
    expect(thickPlace(body, "all-round")).toMatch(/^(59|6\d) mm from the left \(x\), 1[456] mm from the front \(y\) and (9|10|11) mm above the foot/);
    expect(thickPlace(body, "one-face")).toMatch(/and 1 mm above the foot/);
  });

  it.each([
    [29, "mm", /29 mm at its longest is very small.*In centimetres it would be 290 mm.*in inches it would be 737 mm/],
    [30, "mm", undefined],
    [1500, "mm", undefined],
    [1501, "cm", /very large.*In millimetres it would be 150 mm/],
    [120_000, "m", /In millimetres it would be 120 mm, in centimetres it would be 1200 mm/],
  ] as const)("%d mm read in %s is asked back: %s", (mm, unit, asked) => {
    const doubt = unitDoubt(longest(mm, unit));
    if (asked === undefined) expect(doubt).toBeUndefined();
    else expect(doubt).toMatch(asked);
  });

  it("says what is being done, and how much of the solving", () => {
    expect(stepText({ state: "checking", percent: 0 })).toBe("Checking that it is closed");
    expect(stepText({ state: "solving", percent: 42 })).toBe("Working out how it cools, 42 %");
  });
});

describe("turning a mesh", () => {
  it("comes round again, and stops short of straight above and below", () => {
    const round = Array.from({ length: 24 }).reduce<typeof FIRST_VIEW>((view) => turnedBy(view, { around: Math.PI / 12, up: 0 }), FIRST_VIEW);
    expect(round.around).toBeCloseTo(FIRST_VIEW.around, 9);
    expect(turnedBy(FIRST_VIEW, { around: 0, up: 9 }).up).toBeLessThan(Math.PI / 2);
    expect(turnedBy(FIRST_VIEW, { around: 0, up: -9 }).up).toBeGreaterThan(-Math.PI / 2);
  });

  it("has three directions at right angles", () => {
    const { towards, right, upward } = axesOf({ around: 1.1, up: 0.4 });
    const dot = (a: readonly number[], b: readonly number[]) => a.reduce((sum, value, i) => sum + value * (b[i] ?? 0), 0);
    for (const [a, b] of [[towards, right], [right, upward], [upward, towards]] as const) expect(dot(a, b)).toBeCloseTo(0, 12);
    for (const axis of [towards, right, upward]) expect(Math.hypot(...axis)).toBeCloseTo(1, 12);
  });
});

describe("a still drawing", () => {
  it("shows the three near sides of a brick, and the mark where the glass is thickest", () => {
    const { faces, at, view } = stillOf(drawnSurface(brickMesh(0.12, 0.03, 0.02)), markOf(body, "all-round"), FIRST_VIEW);
    expect(faces).toHaveLength(6);
    const [left = 0, top = 0, width = 0, height = 0] = view.split(" ").map(Number);
    expect(at[0]).toBeGreaterThan(left);
    expect(at[0]).toBeLessThan(left + width);
    expect(at[1]).toBeGreaterThan(top);
    expect(at[1]).toBeLessThan(top + height);
  });

  it("thins a scan to what is drawn in a moment", () => {
    expect(stillOf(drawnSurface(ballMesh(0.1, 70)), markOf(body, "all-round"), FIRST_VIEW).faces.length).toBeLessThanOrEqual(1500);
  });
});
