import type { Glass } from "@/lib/domain/glass/glass";
import { heatStep, outsideC, type HeatProblem, type Surface } from "@/lib/domain/heat/conduct";
import { conductivity, heatCapacity } from "@/lib/domain/heat/glass-heat";
import { FIRED_MOULD } from "@/lib/domain/heat/mould-material";
import { radialGrid, widthsTowardsOutside, type BodyShape, type RadialGrid } from "@/lib/domain/heat/radial-grid";
import { kelvin, ROOM_C, SECONDS_PER_HOUR } from "@/lib/domain/units";
import { balancedStrain, stressOf } from "./equilibrium";
import { AXIAL, fade, HOOP, noMemory, RADIAL, remember, type Memory } from "./memory";
import { coldestEquilibriumK, relaxingGlass, transitionK, type RelaxingGlass } from "./relaxing-glass";
import { equilibrium, relaxStructure, type Structure } from "./structure";

export type SimulationInput = {
  readonly glass: Glass;
  readonly shape: BodyShape;
  /** Full thickness of the slab or diameter, m. */
  readonly thicknessM: number;
  /** Fired mould around it, m; 0 for bare glass. */
  readonly mouldWallM: number;
  readonly surface: Surface;
  /** Everything starts at this temperature, °C, without stress; the glass at equilibrium where a glass can be. */
  readonly startC: number;
  /** The glass begins with the structure of this temperature, °C, as a piece that was cooled before; else with that of `startC`. */
  readonly structureC?: number | undefined;
  /** Hours from the start and kiln temperatures, °C; straight in between. */
  readonly program: readonly (readonly [hours: number, celsius: number])[];
};

export type HistoryRow = {
  readonly h: number;
  readonly kilnC: number;
  readonly surfaceC: number;
  readonly coreC: number;
  readonly surfaceMPa: number;
  readonly centreMPa: number;
  /** The largest tension anywhere in the body. */
  readonly tensionMPa: number;
};

/** What lies between middle and surface at one moment: a figure for each cell, tension positive. */
export type Profile = {
  /** From the middle, m. */
  readonly atM: readonly number[];
  readonly celsius: readonly number[];
  readonly MPa: readonly number[];
};

export type Simulation = {
  readonly permanent: { readonly centreMPa: number; readonly surfaceMPa: number };
  readonly peakTensionMPa: number;
  readonly coreSurfaceMaxK: number;
  readonly history: readonly HistoryRow[];
  /** Largest difference of one whole from two half heat steps, K (their extrapolation is kept), and the steps taken. */
  readonly heatErrorK: number;
  readonly steps: number;
};

export type Fineness = { readonly glassCells: number; readonly mouldCells: number; readonly stepK: number; readonly heatErrorK: number };
export const USUAL_FINENESS: Fineness = { glassCells: 24, mouldCells: 12, stepK: 1, heatErrorK: 0.02 };

/** Away from the transition nothing relaxes, and steps may be this much larger. */
const COLD_STEP_FACTOR = 8;
/** In a hold only the structure still moves; steps that grow faster than this would let it lag behind by more than a hundredth. */
const STEP_GROWTH = 1.3;
const ROWS = 400;
/** A row is also kept whenever the surface or the core has moved by this much, K. */
const ROW_K = 2;
const END_RATE_K_PER_H = 60;

type State = {
  readonly input: SimulationInput;
  readonly fineness: Fineness;
  readonly heat: HeatProblem;
  readonly glassGrid: RadialGrid;
  readonly law: RelaxingGlass;
  readonly memory: Memory;
  readonly structure: Structure;
  readonly transition: { readonly fromK: number; readonly toK: number };
  temperatures: Float64Array;
  stress: Float64Array;
  seconds: number;
  tensionPa: number;
  peakPa: number;
  coreSurfaceK: number;
  heatErrorK: number;
  steps: number;
  readonly history: HistoryRow[];
};

/**
 * Temperatures and stresses of a body through a kiln program: transient conduction, structural relaxation
 * and viscoelastic stress (Narayanaswamy 1971 in the form of Aronen & Karvinen 2018). The stress after
 * the program is followed down to an even 20 °C. Tension is positive; the slab is free at its edges and
 * stays flat, the cylinder is long with free ends. Whoever wants to know what lies between middle and
 * surface is told with every row of the history.
 */
export function simulate(input: SimulationInput, fineness: Fineness = USUAL_FINENESS, onRow?: (row: HistoryRow, profile: Profile) => void): Simulation {
  const whole = withCooling(input);
  const state = initialState(input, fineness, whole[0]?.[1] ?? input.startC);
  const end = (whole.at(-1)?.[0] ?? 0) * SECONDS_PER_HOUR;
  let dt = 1e-3;
  const kilnAt = programAt(whole);
  const corners = whole.map(([hours]) => hours * SECONDS_PER_HOUR);
  while (state.seconds < end * (1 - 1e-12)) {
    const corner = corners.find((one) => one > state.seconds * (1 + 1e-12) + 1e-9) ?? end;
    dt = advance(state, Math.min(dt, corner - state.seconds), kilnAt);
    const row = keepRow(state, kilnAt, end, Math.abs(state.seconds - corner) < 1e-6);
    if (row !== undefined) onRow?.(row, profileOf(state));
  }
  return result(state);
}

function initialState(input: SimulationInput, fineness: Fineness, kilnC0: number): State {
  const { glass, shape, thicknessM, mouldWallM, surface, startC, structureC = startC } = input;
  const own = widthsTowardsOutside(thicknessM / 2, fineness.glassCells);
  const wall = mouldWallM > 0 ? Array.from({ length: fineness.mouldCells }, () => mouldWallM / fineness.mouldCells) : [];
  const material = {
    conductivity: (celsius: number) => conductivity(glass, celsius),
    // The curve of the solid throughout, as in the tempering models the results are compared with: what the
    // structure gives up in the transition is small beside what the step to the liquid's curve would add.
    capacity: (celsius: number) => glass.densityKgM3 * heatCapacity(glass, celsius, "solid"),
  };
  const law = relaxingGlass(glass);
  const cells = own.length;
  return {
    input, fineness, law,
    heat: { grid: radialGrid(shape, [...own, ...wall]), materials: [...own.map(() => material), ...wall.map(() => FIRED_MOULD)], surface },
    glassGrid: radialGrid(shape, own),
    memory: noMemory(law, cells),
    structure: equilibrium(law, new Float64Array(cells).fill(Math.max(kelvin(structureC), coldestEquilibriumK(law)))),
    transition: transitionK(law),
    temperatures: new Float64Array(cells + wall.length).fill(startC),
    stress: new Float64Array(3 * cells),
    seconds: 0, tensionPa: 0, peakPa: 0, coreSurfaceK: 0, heatErrorK: 0, steps: 0,
    history: [{ h: 0, kilnC: kilnC0, surfaceC: startC, coreC: startC, surfaceMPa: 0, centreMPa: 0, tensionMPa: 0 }],
  };
}

/** One step that keeps to the limits, halved until it does; returns the next step's length, s. */
function advance(state: State, wished: number, kilnAt: (seconds: number) => number): number {
  const { fineness, heat } = state;
  let dt = wished;
  for (;;) {
    const { temperatures, errorK } = heatStep(heat, state.temperatures, dt, kilnAt, state.seconds);
    let moved = 0;
    for (let i = 0; i < fineness.glassCells; i += 1) moved = Math.max(moved, Math.abs((temperatures[i] ?? 0) - (state.temperatures[i] ?? 0)));
    const allowed = fineness.stepK * (isRelaxing(state, temperatures) ? 1 : COLD_STEP_FACTOR);
    const strain = Math.max(moved / allowed, Math.sqrt(errorK / fineness.heatErrorK));
    if (strain > 1.5 && dt > 1e-6) {
      dt *= Math.max(0.2, 0.9 / strain);
      continue;
    }
    state.heatErrorK = Math.max(state.heatErrorK, errorK);
    follow(state, temperatures, dt);
    state.seconds += dt;
    state.steps += 1;
    track(state, kilnAt(state.seconds));
    return dt * Math.min(STEP_GROWTH, Math.max(0.5, 0.9 / Math.max(strain, 0.1)));
  }
}

/** Whether any of the glass, or what lies between its warmest and coolest part, is in the transition. */
function isRelaxing({ transition, fineness }: State, temperatures: Float64Array): boolean {
  const glass = temperatures.subarray(0, fineness.glassCells);
  return kelvin(Math.max(...glass)) > transition.fromK && kelvin(Math.min(...glass)) < transition.toK;
}

/** Structure, then stress, over a step whose temperatures are known. */
function follow(state: State, after: Float64Array, dt: number): void {
  const { law, memory, structure, glassGrid, fineness } = state;
  const cells = fineness.glassCells;
  const beforeK = state.temperatures.slice(0, cells).map(kelvin);
  const afterK = after.slice(0, cells).map(kelvin);
  const fictiveBefore = structure.fictive.slice();
  const reduced = relaxStructure(law, structure, beforeK, afterK, dt);
  const free = afterK.map((temperature, i) => law.expansionSolid * (temperature - (beforeK[i] ?? 0)) + (law.expansionLiquid - law.expansionSolid) * ((structure.fictive[i] ?? 0) - (fictiveBefore[i] ?? 0)));
  const stiffness = fade(law, memory, reduced);
  const strain = balancedStrain(glassGrid, stiffness, free);
  for (let i = 0; i < cells; i += 1) for (const d of [RADIAL, HOOP, AXIAL]) state.stress[3 * i + d] = stressOf(stiffness, strain, free, i, d);
  remember(law, memory, strain, free);
  state.temperatures = after;
}

function track(state: State, kilnC: number): void {
  const { stress, input } = state;
  let most = Math.max(0, surfacePa(state), centrePa(state));
  for (let i = 0; i < stress.length; i += 1) if (input.shape !== "slab" || i % 3 !== RADIAL) most = Math.max(most, stress[i] ?? 0);
  state.tensionPa = most;
  state.peakPa = Math.max(state.peakPa, most);
  state.coreSurfaceK = Math.max(state.coreSurfaceK, Math.abs(coreC(state) - glassSurfaceC(state, kilnC)));
}

/** Every corner of the program is kept, so that the history can be drawn with straight lines. */
function keepRow(state: State, kilnAt: (seconds: number) => number, end: number, isCorner: boolean): HistoryRow | undefined {
  const last = state.history.at(-1);
  const h = state.seconds / SECONDS_PER_HOUR;
  const kilnC = kilnAt(state.seconds);
  const surfaceC = glassSurfaceC(state, kilnC);
  const core = coreC(state);
  const moved = last === undefined ? Infinity : Math.max(Math.abs(surfaceC - last.surfaceC), Math.abs(core - last.coreC));
  const soon = last !== undefined && h - last.h < end / SECONDS_PER_HOUR / ROWS && moved < ROW_K;
  if (soon && !isCorner && state.seconds < end) return undefined;
  const row = { h, kilnC, surfaceC, coreC: core, surfaceMPa: surfacePa(state) / 1e6, centreMPa: centrePa(state) / 1e6, tensionMPa: state.tensionPa / 1e6 };
  state.history.push(row);
  return row;
}

function profileOf({ glassGrid, temperatures, stress, fineness }: State): Profile {
  const cells = Array.from({ length: fineness.glassCells }, (_, i) => i);
  return {
    atM: [...glassGrid.centres],
    celsius: cells.map((i) => temperatures[i] ?? 0),
    MPa: cells.map((i) => (stress[3 * i + HOOP] ?? 0) / 1e6),
  };
}

function result(state: State): Simulation {
  return {
    permanent: { centreMPa: centrePa(state) / 1e6, surfaceMPa: surfacePa(state) / 1e6 },
    peakTensionMPa: state.peakPa / 1e6,
    coreSurfaceMaxK: state.coreSurfaceK,
    history: state.history,
    heatErrorK: state.heatErrorK,
    steps: state.steps,
  };
}

/** At the middle the profile is flat: a + b·x² through the first two cells. */
function atMiddle(centres: Float64Array, first: number, second: number): number {
  const [x1, x2] = [(centres[0] ?? 0) ** 2, (centres[1] ?? 1) ** 2];
  return first - ((second - first) * x1) / (x2 - x1);
}

function centrePa({ stress, glassGrid }: State): number {
  return atMiddle(glassGrid.centres, stress[HOOP] ?? 0, stress[3 + HOOP] ?? 0);
}

function coreC({ temperatures, glassGrid }: State): number {
  return atMiddle(glassGrid.centres, temperatures[0] ?? 0, temperatures[1] ?? 0);
}

/** Stress at the surface itself, by the parabola through the three outermost cells. */
function surfacePa({ stress, glassGrid, fineness }: State): number {
  const n = fineness.glassCells;
  const x = glassGrid.faces[n] ?? 0;
  const [a, b, c] = [n - 3, n - 2, n - 1];
  const [xa, xb, xc] = [glassGrid.centres[a] ?? 0, glassGrid.centres[b] ?? 0, glassGrid.centres[c] ?? 0];
  const at = (cell: number) => stress[3 * cell + HOOP] ?? 0;
  return (
    (at(a) * (x - xb) * (x - xc)) / ((xa - xb) * (xa - xc)) + (at(b) * (x - xa) * (x - xc)) / ((xb - xa) * (xb - xc)) + (at(c) * (x - xa) * (x - xb)) / ((xc - xa) * (xc - xb))
  );
}

/** Where glass meets the air or its mould. */
function glassSurfaceC({ heat, temperatures, fineness }: State, kilnC: number): number {
  const n = fineness.glassCells;
  if (temperatures.length === n) return outsideC(heat, temperatures, kilnC);
  const half = (i: number): number => ((heat.grid.faces[i + 1] ?? 0) - (heat.grid.faces[i] ?? 0)) / 2 / (heat.materials[i]?.conductivity(temperatures[i] ?? 0) ?? 1);
  const [inner, outer] = [half(n - 1), half(n)];
  return ((temperatures[n - 1] ?? 0) * outer + (temperatures[n] ?? 0) * inner) / (inner + outer);
}

/** How a program that ends warm goes on: at the rate of its last ramp, or at 60 K/h when that does not cool. */
export function endRateKPerH(program: SimulationInput["program"]): number {
  const [before, last] = program.slice(-2);
  if (before === undefined || last === undefined) return END_RATE_K_PER_H;
  const [[fromHours, fromC], [toHours, toC]] = [before, last];
  return fromC > toC && toHours > fromHours ? (fromC - toC) / (toHours - fromHours) : END_RATE_K_PER_H;
}

/** The program, then down to room temperature, then long enough there for the core to follow. */
function withCooling({ program, glass, thicknessM, mouldWallM, startC }: SimulationInput): readonly (readonly [number, number])[] {
  const first: readonly [number, number] = [0, startC];
  const begun = program[0]?.[0] === 0 ? program : [first, ...program];
  const [lastHours, lastC] = begun.at(-1) ?? first;
  const down = Math.abs(lastC - ROOM_C) / endRateKPerH(begun);
  const kappa = conductivity(glass, ROOM_C) / (glass.densityKgM3 * heatCapacity(glass, ROOM_C, "solid"));
  const settle = (10 * ((thicknessM / 2) ** 2 / kappa + mouldWallM ** 2 / 3e-7 + thicknessM * 60)) / SECONDS_PER_HOUR + 0.05;
  return [...begun, ...(down > 0 ? [[lastHours + down, ROOM_C] as const] : []), [lastHours + down + settle, ROOM_C]];
}

function programAt(program: readonly (readonly [number, number])[]): (seconds: number) => number {
  return (seconds) => {
    const hours = seconds / SECONDS_PER_HOUR;
    const next = program.findIndex(([at]) => at >= hours);
    const [toH, toC] = program[next < 0 ? program.length - 1 : next] ?? [0, ROOM_C];
    const [fromH, fromC] = program[Math.max(0, next - 1)] ?? [0, ROOM_C];
    if (next <= 0 || toH === fromH) return toC;
    return fromC + ((toC - fromC) * (hours - fromH)) / (toH - fromH);
  };
}
