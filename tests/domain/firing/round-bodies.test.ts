import { describe, expect, it } from "vitest";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { catalogueGlass } from "@/lib/domain/glass/catalogue";
import { simulate } from "@/lib/domain/stress/simulate";
import { planned, slab } from "./casting-builder";

const LONG_MS = 60_000;

/** A bare body through its own plan, from process temperature on, followed as what it is. */
function followed(glass: "soda-lime-casting" | "lead-crystal-45", piece: CastingInput["piece"] & { readonly shape: "slab" | "cylinder" | "ball" }) {
  const plan = planned(slab(1, { glass, piece }));
  const down = plan.firing.stages.slice(plan.firing.stages.findIndex(({ stage }) => stage === "Drop")).filter(({ stage }) => stage !== "Open");
  const program: [number, number][] = [[0, plan.firing.peakC]];
  for (const { toC, hours } of down) program.push([(program.at(-1)?.[0] ?? 0) + hours, toC]);
  const result = simulate({ glass: catalogueGlass(glass), shape: piece.shape, thicknessM: (piece.sizeMm?.[0] ?? 0) / 1000, mouldWallM: 0, surface: "fixed", startC: plan.firing.peakC, program });
  return { plan, result };
}

/** A plan is searched with a slab that stands for the body; the model of the body itself must agree with it. */
describe("a plan's stresses against the body itself, followed from process temperature to the room", () => {
  it.each([
    ["soda-lime-casting", { shape: "slab", sizeMm: [80] }],
    ["lead-crystal-45", { shape: "slab", sizeMm: [40] }],
    ["soda-lime-casting", { shape: "ball", sizeMm: [60] }],
    ["lead-crystal-45", { shape: "ball", sizeMm: [150] }],
    ["soda-lime-casting", { shape: "cylinder", sizeMm: [120, 1200] }],
  ] as const)("%s, %j", (glass, piece) => {
    const { plan, result } = followed(glass, piece);
    expect(plan.stress.passingMPa).toBeLessThanOrEqual(1.4 * 1.005);
    expect(result.peakTensionMPa).toBeLessThanOrEqual(1.4 * 1.02);
    expect(Math.max(result.permanent.centreMPa, result.permanent.surfaceMPa)).toBeLessThanOrEqual(0.4 * 1.02);
    expect(Math.abs(plan.stress.permanentSurfaceMPa / result.permanent.surfaceMPa - 1)).toBeLessThan(0.06);
  }, LONG_MS);
});
