import { describe, expect, it } from "vitest";
import { airDryingDays } from "@/lib/domain/mould/air-drying";
import { mixOf } from "@/lib/domain/mould/mix";
import { choosePot, frustumVolume, potHolds, potOf } from "@/lib/domain/mould/pot";
import { boxShellVolume, shellVolume } from "@/lib/domain/mould/shell";
import { powerHours, steamOut, steamOutHeatKJ, wallHours } from "@/lib/domain/mould/steam-out";
import type { Solid } from "@/lib/domain/shape/solid";

const brick = (...lengthsM: [number, number, number]): Solid => ({ shape: "brick", lengthsM });

/**
 * Worked out by absolute volumes: powder true density 2.65 (from memory), formula masses of gypsum and
 * hemihydrate. Columns: slurry kg/L, powder kg/L, free and bound water % of wet, fired over wet.
 */
describe("what a mix of plaster, silica and water weighs", () => {
  it.each([
    [[1, 1, 0.8], 1.8, 1.29, 21.9, 8.9, 0.69],
    [[1, 1, 1], 1.71, 1.14, 27.1, 8.3, 0.65],
    [[1, 1, 1.14], 1.66, 1.05, 30.4, 7.9, 0.62],
    [[1, 2, 1.5], 1.71, 1.14, 29.2, 5.5, 0.65],
    [[1, 0, 0.7], 1.58, 0.93, 30.2, 14.6, 0.55],
  ] as const)("%j", (parts, slurry, powder, free, bound, fired) => {
    const mix = mixOf(parts);
    expect(mix.slurryKgPerL).toBeCloseTo(slurry, 1);
    expect(mix.powderKgPerL).toBeCloseTo(powder, 1);
    expect((100 * mix.freeWaterKgPerL) / mix.slurryKgPerL).toBeCloseTo(free, 0);
    expect((100 * mix.boundWaterKgPerL) / mix.slurryKgPerL).toBeCloseTo(bound, 0);
    expect((mix.slurryKgPerL - mix.freeWaterKgPerL - mix.boundWaterKgPerL) / mix.slurryKgPerL).toBeCloseTo(fired, 1);
  });
  it("needs the 0.60 and 0.57 kg of water per litre that theory gives for powder to water of 1.75 and 2", () => {
    expect(mixOf([1, 1, 2 / 1.75]).waterKgPerL).toBeCloseTo(0.6, 2);
    expect(mixOf([1, 1, 1]).waterKgPerL).toBeCloseTo(0.57, 2);
  });
});

describe("the shell around a piece (Steiner's formula)", () => {
  it.each([
    [brick(0.1, 0.1, 0.1), 0.03, 3.1, 2.76],
    [brick(0.2, 0.15, 0.1), 0.04, 8.59, 7.73],
    [brick(0.4, 0.3, 0.2), 0.05, 36.0, 33.6],
    [brick(0.3, 0.3, 0.3), 0.05, 37.0, 34.6],
  ] as const)("%j", (solid, wallM, boxL, huggingL) => {
    expect(1000 * boxShellVolume(solid, wallM)).toBeCloseTo(boxL, 1);
    expect(1000 * shellVolume(solid, wallM)).toBeCloseTo(huggingL, 1);
  });
  it("is the difference of two balls for a ball: 3 litres in a 40 mm wall takes 6.09 litres", () => {
    const diameterM = Math.cbrt((6 * 0.003) / Math.PI);
    const exact = (Math.PI / 6) * ((diameterM + 0.08) ** 3 - diameterM ** 3);
    expect(shellVolume({ shape: "ball", diameterM }, 0.04)).toBeCloseTo(exact, 12);
    expect(1000 * exact).toBeCloseTo(6.09, 2);
  });
});

describe("pots", () => {
  it.each([[0.1, 0.065, 0.09, 0.49], [0.15, 0.095, 0.14, 1.68], [0.2, 0.13, 0.18, 3.91], [0.25, 0.16, 0.23, 7.71]])(
    "a frustum of %d over %d and %d m high holds %d litres",
    (top, bottom, height, litres) => expect(1000 * frustumVolume(top, bottom, height)).toBeCloseTo(litres, 2),
  );
  it("holds 4.4, 5.3 and 6.2 kg of soda-lime at packing 0.5, 0.6 and 0.7, nine tenths full, in the 20 cm pot", () => {
    const pot = potOf(0.2, 0.13, 0.18);
    for (const [packing, kg] of [[0.5, 4.4], [0.6, 5.3], [0.7, 6.2]] as const) expect(potHolds(pot, 2500, packing)).toBeCloseTo(kg, 1);
  });
  it("takes the smallest pot that holds the glass and its own residue, and grows on above the largest", () => {
    for (const kg of [0.2, 1, 3, 6, 20, 80]) {
      const { pot, residueKg } = choosePot(kg, 2500);
      expect(potHolds(pot, 2500)).toBeGreaterThanOrEqual(kg + residueKg - 1e-6);
      expect(residueKg).toBeGreaterThanOrEqual(0.1);
    }
    expect(choosePot(80, 2500).pot.litres).toBeGreaterThan(7.72);
  });
});

describe("steam-out", () => {
  it.each([[25, 0.34], [40, 0.88], [50, 1.4], [75, 3.1], [100, 5.5]])("the wax face of a %d mm wall is warm after %d h", (mm, hours) => {
    expect(wallHours(mm / 1000)).toBeCloseTo(hours, 1);
  });
  it.each([[14.7, 2.8, 3.06, 0.85], [40, 12, 9.8, 2.7], [120, 30, 27, 7.6]])("%d kg wet with %d kg wax take %d MJ, %d h at 2 kW", (wet, wax, megajoules, hours) => {
    expect(steamOutHeatKJ(wet, wax) / 1000).toBeCloseTo(megajoules, 0);
    expect(powerHours(wet, wax, 2)).toBeCloseTo(hours, 1);
  });
  it("is booked in half hours, never less than two hours", () => {
    expect(steamOut(0.02, 2, 0.2).hours).toBe(2);
    expect(steamOut(0.05, 40, 12).hours).toBe(6.5);
    expect((steamOut(0.04, 17, 3).hours * 2) % 1).toBe(0);
  });
});

it("dries 4 kg from 0.31 m² in 2.7 to 11 days of room air", () => {
  const days = airDryingDays(4, 0.31);
  expect(days.from).toBeCloseTo(2.7, 1);
  expect(days.to).toBeCloseTo(10.8, 1);
});
