import { describe, expect, it } from "vitest";
import { heatStep, outsideC, type HeatProblem, type Surface } from "@/lib/domain/heat/conduct";
import { radialGrid, widthsTowardsOutside, type BodyShape } from "@/lib/domain/heat/radial-grid";
import { RAMP_FROM_REST, STEP_COOLING } from "@/lib/cli/bench/transient-conduction";

/** Of the driving difference. */
const WITHIN = 1e-3;
const CELLS = 60;
/** Unit body: half thickness or radius 1 m, κ = 1 m²/s, k = 1 W/(m·K). */
const unit = { conductivity: () => 1, capacity: () => 1 };

function problem(shape: BodyShape, surface: Surface): HeatProblem {
  return { grid: radialGrid(shape, widthsTowardsOutside(1, CELLS)), materials: Array.from({ length: CELLS }, () => unit), surface };
}

/** Small steps at first, where the change is sharp; then evenly. */
function run(heat: HeatProblem, start: number, until: number, kilnAt: (seconds: number) => number): Float64Array {
  let temperatures = new Float64Array(CELLS).fill(start);
  let dt = 1e-7;
  for (let t = 0; t < until - 1e-12; ) {
    const step = Math.min(dt, until - t);
    temperatures = Float64Array.from(heatStep(heat, temperatures, step, kilnAt, t).temperatures);
    t += step;
    dt = Math.min(until / 400, dt * 1.3);
  }
  return temperatures;
}

function mean({ grid }: HeatProblem, temperatures: Float64Array): number {
  const whole = grid.volumes.reduce((sum, volume) => sum + volume, 0);
  return temperatures.reduce((sum, value, i) => sum + value * (grid.volumes[i] ?? 0), 0) / whole;
}

function core({ grid }: HeatProblem, temperatures: Float64Array): number {
  const [x1, x2] = [(grid.centres[0] ?? 0) ** 2, (grid.centres[1] ?? 0) ** 2];
  const [first, second] = [temperatures[0] ?? 0, temperatures[1] ?? 0];
  return first - ((second - first) * x1) / (x2 - x1);
}

describe("transient conduction against exact series", () => {
  it.each(STEP_COOLING)("$shape, Bi $biot, Fo $fourier: step change", ({ shape, biot, fourier, left }) => {
    const heat = problem(shape, Number.isFinite(biot) ? { hWPerM2K: biot } : "fixed");
    const temperatures = run(heat, 1, fourier, () => 0);
    expect(Math.abs(core(heat, temperatures) - left[0])).toBeLessThan(WITHIN);
    expect(Math.abs(outsideC(heat, temperatures, 0) - left[1])).toBeLessThan(WITHIN);
    expect(Math.abs(mean(heat, temperatures) - left[2])).toBeLessThan(WITHIN);
  });

  it.each(RAMP_FROM_REST)("$shape, Fo $fourier: ramp of the surface from rest", ({ shape, fourier, core: coreOver, mean: meanOver }) => {
    const heat = problem(shape, "fixed");
    const temperatures = run(heat, 0, fourier, (seconds) => -seconds);
    expect(Math.abs(core(heat, temperatures) + fourier - coreOver)).toBeLessThan(WITHIN);
    expect(Math.abs(mean(heat, temperatures) + fourier - meanOver)).toBeLessThan(WITHIN);
  });
});
