import { catalogueGlass } from "@/lib/domain/glass/catalogue";
import type { Glass } from "@/lib/domain/glass/glass";
import { FLOAT_RELAXATION } from "@/lib/domain/glass/relaxation";
import { diffusivity } from "@/lib/domain/heat/glass-heat";
import type { BodyShape } from "@/lib/domain/heat/radial-grid";
import { historyAt } from "@/lib/domain/stress/history-at";
import { stiffness } from "@/lib/domain/stress/quasi-steady";
import { simulate, USUAL_FINENESS, type Fineness, type Simulation } from "@/lib/domain/stress/simulate";
import { SECONDS_PER_HOUR } from "@/lib/domain/units";
import { QUENCH_4_MM, SLOW_COOLING } from "./tempering";
import { RAMP_FROM_REST, STEP_COOLING } from "./transient-conduction";

/** How far one simulated figure lies from a published one; `off` is simulated less published. */
export type Deviation = { readonly what: string; readonly off: number; readonly published: number };

export const FLOAT: Glass = { ...catalogueGlass("soda-lime-float"), relaxation: FLOAT_RELAXATION };
/** Float as in the slow-cooling cases: one conductivity at all temperatures. */
export const STEADY_FLOAT: Glass = { ...FLOAT, conductivityWPerMK: [1.2, 0] };

/** κ = 4e-7 m²/s at all temperatures, as the exact series need it. */
const CONSTANT: Glass = { ...FLOAT, densityKgM3: 2500, conductivityWPerMK: [1, 0], heatCapacity: { kind: "constant", jPerKgK: 1000 } };
const KAPPA = 4e-7;
const RADIUS_M = 0.025;
const secondsAt = (fourier: number): number => (fourier * RADIUS_M ** 2) / KAPPA;

/** Core and surface after a sudden change, as shares of the driving difference, with the usual cells and steps. */
export function stepDeviations(fineness: Fineness = USUAL_FINENESS): Deviation[] {
  const [hotC, coldC] = [520, 20];
  return STEP_COOLING.flatMap(({ shape, biot, fourier, left }) => {
    const seconds = secondsAt(fourier);
    const surface = Number.isFinite(biot) ? { hWPerM2K: biot / RADIUS_M } : "fixed";
    const program = [[0, coldC], [(2 * seconds) / SECONDS_PER_HOUR, coldC]] as const;
    const { history } = simulate({ glass: CONSTANT, shape, thicknessM: 2 * RADIUS_M, mouldWallM: 0, surface, startC: hotC, program }, fineness);
    const share = (key: "coreC" | "surfaceC"): number => ((historyAt(history, seconds, key) ?? NaN) - coldC) / (hotC - coldC);
    const name = `${shape}, Bi ${biot}, Fo ${fourier}`;
    return [
      { what: `${name}, core`, off: share("coreC") - left[0], published: left[0] },
      { what: `${name}, surface`, off: share("surfaceC") - left[1], published: left[1] },
    ];
  });
}

/** Core over surface in a ramp from rest, in units of q·L²/κ, with the usual cells and steps. */
export function rampDeviations(fineness: Fineness = USUAL_FINENESS): Deviation[] {
  const fallK = 400;
  return RAMP_FROM_REST.map(({ shape, fourier, core }) => {
    const seconds = secondsAt(fourier);
    const program = [[0, 420], [seconds / SECONDS_PER_HOUR, 420 - fallK]] as const;
    const { history } = simulate({ glass: CONSTANT, shape, thicknessM: 2 * RADIUS_M, mouldWallM: 0, surface: "fixed", startC: 420, program }, fineness);
    const over = (historyAt(history, seconds, "coreC") ?? NaN) - (420 - fallK);
    return { what: `${shape}, ramp, Fo ${fourier}`, off: (over * fourier) / fallK - core, published: core };
  });
}

/** Every row of the 4 mm quench, MPa. */
export function quenchDeviations(): Deviation[] {
  const { history } = quench();
  return QUENCH_4_MM.flatMap(({ seconds, surface, middle }) => [
    { what: `${seconds} s, surface`, off: (historyAt(history, seconds, "surfaceMPa") ?? NaN) - surface, published: surface },
    { what: `${seconds} s, middle`, off: (historyAt(history, seconds, "centreMPa") ?? NaN) - middle, published: middle },
  ]);
}

export function quench(): Simulation {
  return simulate({ glass: FLOAT, shape: "slab", thicknessM: 0.004, mouldWallM: 0, surface: { hWPerM2K: 450 }, startC: 650, program: [[0, 20], [110 / SECONDS_PER_HOUR, 20]] });
}

/** A bare body whose surface cools steadily from 620 to 20 °C. */
export function cooledSteadily(glass: Glass, mm: number, rateKPerH: number, shape: BodyShape = "slab", fineness: Fineness = USUAL_FINENESS): Simulation {
  return simulate({ glass, shape, thicknessM: mm / 1000, mouldWallM: 0, surface: "fixed", startC: 620, program: [[0, 620], [600 / rateKPerH, 20]] }, fineness);
}

/** Permanent stress of the slow-cooling cases, MPa. */
export function slowDeviations(): Deviation[] {
  return SLOW_COOLING.flatMap(({ mm, rate, liquid, activation, surface, middle }) => {
    const solid = liquid === 25.1e-6 ? 9.1e-6 : 9e-6;
    const glass = { ...STEADY_FLOAT, expansionSolidPerK: solid, expansionLiquidPerK: liquid, relaxation: { ...FLOAT_RELAXATION, activationK: activation } };
    const { permanent } = cooledSteadily(glass, mm, rate);
    const name = `${mm} mm at ${rate} K/h, liquid ${liquid}, H/R ${activation}`;
    return [
      { what: `${name}, surface`, off: permanent.surfaceMPa - surface, published: surface },
      { what: `${name}, middle`, off: permanent.centreMPa - middle, published: middle },
    ];
  });
}

/** Where float freezes at 15 K/h on these data, °C. */
const FROZEN_C = 512;
/** σ·κ/(S·q·R²) at surface and centre of a body cooling steadily: Timoshenko & Goodier, Theory of Elasticity. */
const SUDDEN = { slab: [3, 6], cylinder: [8, 16], ball: [15, 15] } as const;

/** Permanent stress over the law of sudden freezing when solid and liquid expand alike: 25 mm at 15 K/h. */
export function suddenFreezing(shape: BodyShape, fineness: Fineness = USUAL_FINENESS): { readonly surface: number; readonly centre: number } {
  const equal = { ...STEADY_FLOAT, expansionLiquidPerK: STEADY_FLOAT.expansionSolidPerK };
  const { permanent } = cooledSteadily(equal, 25, 15, shape, fineness);
  const unit = (stiffness(equal) * (15 / SECONDS_PER_HOUR) * 0.0125 ** 2) / diffusivity(equal, FROZEN_C, "solid");
  return { surface: (-permanent.surfaceMPa * SUDDEN[shape][0]) / unit, centre: (permanent.centreMPa * SUDDEN[shape][1]) / unit };
}
