import { describe, expect, it } from "vitest";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { planHistory, type PlanHistory } from "@/lib/domain/firing/plan-history";
import { totalHours } from "@/lib/domain/firing/segment";
import { glassHeatJPerM3K } from "@/lib/domain/firing/planned-body";
import { catalogueGlass } from "@/lib/domain/glass/catalogue";
import { lagHours, wallOfLagM } from "@/lib/domain/heat/mould-heat";
import { stressLimits } from "@/lib/domain/stress/stress-level";
import { BRICK, planned, slab } from "./casting-builder";

function historyOf(input: CastingInput): PlanHistory {
  const outcome = planHistory(input, planned(input));
  if (!outcome.ok) throw new Error(outcome.problems[0].message);
  return outcome.value;
}

const BALL: CastingInput = { ...BRICK, piece: { shape: "ball", sizeMm: [120] } };
const CASES: readonly (readonly [string, CastingInput])[] = [
  ["a brick in a mould", BRICK],
  ["a slab in a mould", slab(50, { mould: { wallMm: 40, plasterSilicaWater: [1, 1, 1] } })],
  ["a slab of lead crystal in a mould", slab(100, { glass: "lead-crystal-45", mould: { wallMm: 40, plasterSilicaWater: [1, 1, 1] } })],
  ["a ball in a mould", BALL],
  ["a thin slab in a thick mould", slab(25, { mould: { wallMm: 40, plasterSilicaWater: [1, 1, 1] } })],
  ["a brick cooled on one face", { ...BRICK, cooling: "one-face" }],
  ["a bare slab", slab(50)],
  ["a brick at looser limits", { ...BRICK, stress: { permanentMPa: 0.8, passingMPa: 3 } }],
];

describe.each(CASES)("what the glass of %s goes through", (_, input) => {
  const plan = planned(input);
  const history = historyOf(input);

  it("is told in order, in a few hundred rows, from the room to the room", () => {
    const { rows } = history;
    expect(rows.length).toBeGreaterThan(100);
    expect(rows.length).toBeLessThan(600);
    rows.forEach((row, i) => expect(row.h).toBeGreaterThan(rows[i - 1]?.h ?? 0));
    const last = rows.at(-1);
    for (const celsius of [last?.kilnC, last?.surfaceC, last?.coreC]) expect(Math.abs((celsius ?? NaN) - 20)).toBeLessThanOrEqual(0.5);
  });
  it("has a row at every corner of the program, with the kiln where the program says", () => {
    plan.firing.stages.forEach((stage, i) => {
      const h = totalHours(plan.firing.stages.slice(0, i + 1));
      const row = history.rows.find((one) => Math.abs(one.h - h) < 1e-5);
      expect(row?.kilnC).toBeCloseTo(stage.toC, 3);
    });
  });
  it.runIf(input.kiln === undefined)("keeps to the planned stresses within 1 %, bare or behind its mould", () => {
    for (const key of ["permanentCentreMPa", "permanentSurfaceMPa", "passingMPa"] as const) {
      expect(Math.abs(history.stress[key] / plan.stress[key] - 1)).toBeLessThanOrEqual(0.01);
    }
  });
  it.runIf(input.kiln !== undefined)("goes no further than the planned stresses in a kiln that loses heat more slowly", () => {
    for (const key of ["permanentCentreMPa", "permanentSurfaceMPa", "passingMPa"] as const) {
      const share = history.stress[key] / plan.stress[key];
      expect(share).toBeLessThanOrEqual(1.01);
      expect(share).toBeGreaterThanOrEqual(0.8);
    }
  });
  it("keeps to the level's limits", () => {
    const { permanentMPa, passingMPa } = stressLimits(input.stress);
    expect(Math.max(history.stress.permanentCentreMPa, history.stress.permanentSurfaceMPa)).toBeLessThanOrEqual(1.005 * permanentMPa);
    expect(history.stress.passingMPa).toBeLessThanOrEqual(1.005 * passingMPa);
  });
  it("has a profile that ends at the core and the surface of its row", () => {
    for (const { celsius, coreC, surfaceC } of history.rows) {
      const span = Math.max(...celsius) - Math.min(...celsius);
      expect(Math.abs((celsius[0] ?? NaN) - coreC)).toBeLessThanOrEqual(0.02 * span + 0.2);
      expect(Math.abs((celsius.at(-1) ?? NaN) - surfaceC)).toBeLessThanOrEqual(0.08 * span + 0.2);
    }
  });
});

it("knows the telling moments in the order they come", () => {
  const { moments, rows, glassFromH } = historyOf(BRICK);
  expect(moments.map(({ name }) => name)).toEqual(["Slow cool begins", "Slow cool ends", "Half way down", "Cold"]);
  const hours = [glassFromH, ...moments.map(({ h }) => h)];
  expect([...hours].sort((a, b) => a - b)).toEqual(hours);
  expect(glassFromH).toBeGreaterThan(0);
  expect(rows.at(-1)?.h).toBeGreaterThan(moments.at(-2)?.h ?? Infinity);
});

it("has glass from the start where it is bare, and from the way down where it runs in", () => {
  const [bare, cast] = [historyOf(slab(50)), historyOf(BRICK)];
  expect(bare.glassFromH).toBe(0);
  expect(cast.glassFromH).toBe(cast.downFromH);
  for (const { downFromH, stress, moments } of [bare, cast]) {
    expect(downFromH).toBeGreaterThan(0);
    expect(stress.passingAtH).toBeGreaterThanOrEqual(downFromH);
    expect(moments[0]?.h).toBeGreaterThan(downFromH);
  }
});

it("refuses a mesh piece whose mesh is not at hand", () => {
  const outcome = planHistory({ ...BRICK, piece: { shape: "mesh", file: "figure.stl" } }, planned(BRICK));
  expect(outcome.ok ? "" : outcome.problems[0].code).toBe("mesh-not-read");
});

it.each([0.01, 0.04, 0.1])("finds the wall of %s m again from how late the glass follows through it", (wallM) => {
  const heat = glassHeatJPerM3K(catalogueGlass("soda-lime-casting"));
  expect(wallOfLagM(lagHours(wallM, heat, 0.03), heat, 0.03)).toBeCloseTo(wallM, 9);
});
