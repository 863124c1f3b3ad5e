import type { Glass } from "@/lib/domain/glass/glass";
import { diffusivity } from "@/lib/domain/heat/glass-heat";
import { kelvin, SECONDS_PER_HOUR } from "@/lib/domain/units";
import { slabStrain, stressOf } from "./equilibrium";
import { copyMemory, fade, HOOP, noMemory, remember, type Memory } from "./memory";
import { coldestEquilibriumK, relaxingGlass, transitionK, type RelaxingGlass } from "./relaxing-glass";
import type { StandIn } from "./stand-in";
import { copyStructure, equilibrium, relaxStructure, type Structure } from "./structure";

/**
 * A slab that cools slowly, known at three depths only: the abscissae of Gauss and Legendre from
 * mid-plane (0) to surface (1), where a parabola times a parabola is integrated exactly. In slow cooling
 * temperature and stress are very nearly parabolas, so three depths tell what two dozen cells tell,
 * a hundred times sooner: fast enough to try hundreds of programs for one casting.
 */
const DEPTHS = [0.5 - Math.sqrt(0.15), 0.5, 0.5 + Math.sqrt(0.15)] as const;
const SHARES = Float64Array.of(5 / 18, 8 / 18, 5 / 18);
const ZERO_K = kelvin(0);

/** Exact modes of the slab's cooling; the rest of the profile follows at once. */
const MODES = [1, 3, 5].map((odd) => ({
  rate: (odd * Math.PI) ** 2 / 4,
  amplitude: (4 / (odd * Math.PI)) * (odd % 4 === 1 ? 1 : -1),
  atDepths: DEPTHS.map((x) => Math.cos((odd * Math.PI * x) / 2)),
}));
const PARABOLA = DEPTHS.map((x) => (1 - x * x) / 2);

/** Extrapolates the even curve a + b·x² + c·x⁴ through the three depths to `x`. */
function weightsAt(x: number): readonly [number, number, number] {
  const [p, q, r] = DEPTHS.map((depth) => depth * depth) as [number, number, number];
  const y = x * x;
  return [((y - q) * (y - r)) / ((p - q) * (p - r)), ((y - p) * (y - r)) / ((q - p) * (q - r)), ((y - p) * (y - q)) / ((r - p) * (r - q))];
}
const AT_CENTRE = weightsAt(0);
const AT_SURFACE = weightsAt(1);

export type SlabState = {
  readonly glass: Glass;
  readonly law: RelaxingGlass;
  readonly as: StandIn;
  readonly memory: Memory;
  readonly structure: Structure;
  readonly window: { readonly fromC: number; readonly toC: number };
  readonly modes: Float64Array;
  readonly temperaturesK: Float64Array;
  /** Room for the step at hand, written anew by each. */
  readonly nextK: Float64Array;
  readonly free: Float64Array;
  readonly strain: Float64Array;
  surfaceC: number;
  /** Stress of the body, tension positive: at its surface, in its middle, and the largest tension anywhere. */
  surfaceMPa: number;
  centreMPa: number;
  tensionMPa: number;
  coreSurfaceK: number;
};

/** The largest of each figure while a path was followed. */
export type Seen = { tensionMPa: number; coreSurfaceK: number };

export const nothingSeen = (): Seen => ({ tensionMPa: 0, coreSurfaceK: 0 });

/** A body at one temperature, °C, free of stress and at equilibrium where a glass can be. */
export function evenSlab(glass: Glass, as: StandIn, startC: number): SlabState {
  const law = relaxingGlass(glass);
  const { fromK, toK } = transitionK(law);
  const start = Math.max(kelvin(startC), coldestEquilibriumK(law));
  const depths = DEPTHS.length;
  return {
    glass, law, as,
    memory: noMemory(law, depths),
    structure: equilibrium(law, new Float64Array(depths).fill(start)),
    window: { fromC: fromK - ZERO_K, toC: toK - ZERO_K },
    modes: new Float64Array(MODES.length),
    temperaturesK: new Float64Array(depths).fill(kelvin(startC)),
    nextK: new Float64Array(depths),
    free: new Float64Array(depths),
    strain: new Float64Array(3 * depths),
    surfaceC: startC, surfaceMPa: 0, centreMPa: 0, tensionMPa: 0, coreSurfaceK: 0,
  };
}

/** Brings `to` to the moment of `from`, so that another path can be tried from there. Both are slabs of one glass. */
export function copySlab(from: SlabState, to: SlabState): void {
  copyMemory(from.memory, to.memory);
  copyStructure(from.structure, to.structure);
  to.modes.set(from.modes);
  to.temperaturesK.set(from.temperaturesK);
  to.surfaceC = from.surfaceC;
  to.surfaceMPa = from.surfaceMPa;
  to.centreMPa = from.centreMPa;
  to.tensionMPa = from.tensionMPa;
  to.coreSurfaceK = from.coreSurfaceK;
}

/** Steps of a ramp, K, where glass relaxes and where it is frozen or fluid. */
const STEP_K = 2;
const COLD_STEP_K = 20;
/** Steps of a hold grow by this from a sixteenth of the slab's own time, and none moves any depth by more than so many kelvin. */
const HOLD_GROWTH = 1.3;
const HOLD_STEP_K = 3;
/** How fast a difference dies away at first, per L²/κ. */
const SLOWEST_MODE = Math.PI ** 2 / 4;

/** Leads the slab's surface straight to `toC` in so many hours (> 0), changing `slab` and what was seen. */
export function lead(slab: SlabState, toC: number, hours: number, seen: Seen): void {
  const seconds = hours * SECONDS_PER_HOUR;
  const fromC = slab.surfaceC;
  if (Math.abs(toC - fromC) < 1e-9) {
    stay(slab, seconds, seen);
    return;
  }
  let done = 0;
  while (done < 1 - 1e-12) {
    const at = fromC + (toC - fromC) * done;
    const inside = at - slab.window.fromC > -STEP_K && Math.min(at, toC) < slab.window.toC;
    const share = Math.min(1 - done, (inside ? STEP_K : COLD_STEP_K) / Math.abs(toC - fromC));
    step(slab, fromC + (toC - fromC) * (done + share), share * seconds, seen);
    done += share;
  }
}

/** Holds the surface for so many seconds. */
function stay(slab: SlabState, seconds: number, seen: Seen): void {
  let held = 0;
  let wished = ownSeconds(slab) / 16;
  while (held < seconds) {
    const dt = calmStep(slab, wished);
    const now = seconds - held < 1.5 * dt ? seconds - held : dt;
    step(slab, slab.surfaceC, now, seen);
    held += now;
    wished *= HOLD_GROWTH;
  }
}

/**
 * Hours to hold until `excess` has come down to 1, at most so many. It dies away like an exponential, so the
 * moment within the last step is read from a straight line through its logarithms, and that step is taken
 * again, shorter, from `spare`, a slab of the same glass.
 */
export function holdUntil(slab: SlabState, spare: SlabState, mostHours: number, seen: Seen, excess: (slab: SlabState) => number): number {
  const most = mostHours * SECONDS_PER_HOUR;
  let held = 0;
  let wished = ownSeconds(slab) / 16;
  let before = excess(slab);
  while (before > 1 && held < most) {
    let dt = Math.min(calmStep(slab, wished), most - held);
    copySlab(slab, spare);
    step(slab, slab.surfaceC, dt, seen);
    const after = excess(slab);
    if (after < 1) {
      dt *= Math.log(before) / Math.log(before / after);
      copySlab(spare, slab);
      step(slab, slab.surfaceC, dt, seen);
    }
    held += dt;
    if (after < 1) break;
    before = after;
    wished *= HOLD_GROWTH;
  }
  return held / SECONDS_PER_HOUR;
}

/** A step in which no depth moves by more than a step of a ramp. */
function calmStep(slab: SlabState, wished: number): number {
  const moving = (SLOWEST_MODE * slab.coreSurfaceK) / ownSeconds(slab);
  return moving * wished > HOLD_STEP_K ? HOLD_STEP_K / moving : wished;
}

/** Lets a frozen slab come to one temperature: what is left then is permanent. */
export function comeToRest(slab: SlabState): void {
  step(slab, slab.surfaceC, 30 * ownSeconds(slab), nothingSeen());
}

/** L²/κ: the time in which a slab of half thickness L comes to rest. */
function ownSeconds({ as, glass, surfaceC }: SlabState): number {
  return as.halfM ** 2 / diffusivity(glass, surfaceC, "solid");
}

function step(slab: SlabState, toC: number, dt: number, seen: Seen): void {
  const { law, as, memory, structure, temperaturesK: before, nextK: after, free, strain } = slab;
  const core = followHeat(slab, toC, dt);
  free.set(structure.fictive);
  const reduced = relaxStructure(law, structure, before, after, dt);
  for (let i = 0; i < free.length; i += 1) {
    const settled = (structure.fictive[i] ?? 0) - (free[i] ?? 0);
    free[i] = law.expansionSolid * ((after[i] ?? 0) - (before[i] ?? 0)) + (law.expansionLiquid - law.expansionSolid) * settled;
  }
  const stiffness = fade(law, memory, reduced);
  slabStrain(SHARES, stiffness, free, strain);
  let centre = 0;
  let surface = 0;
  let most = 0;
  for (let i = 0; i < free.length; i += 1) {
    const stress = stressOf(stiffness, strain, free, i, HOOP) / 1e6;
    centre += (AT_CENTRE[i] ?? 0) * stress;
    surface += (AT_SURFACE[i] ?? 0) * stress;
    most = Math.max(most, stress * (i === free.length - 1 ? as.surface : as.centre));
  }
  remember(law, memory, strain, free);
  before.set(after);
  slab.surfaceC = toC;
  slab.surfaceMPa = as.surface * surface;
  slab.centreMPa = as.centre * centre;
  slab.tensionMPa = Math.max(most, slab.centreMPa, slab.surfaceMPa);
  slab.coreSurfaceK = core;
  seen.tensionMPa = Math.max(seen.tensionMPa, slab.tensionMPa);
  seen.coreSurfaceK = Math.max(seen.coreSurfaceK, core);
}

/** Temperatures at the depths when the surface has gone straight to `toC` in `dt` s: exact modes at the diffusivity of the moment. Returns core over surface, K. */
function followHeat({ glass, as: { halfM }, modes, temperaturesK, nextK, surfaceC }: SlabState, toC: number, dt: number): number {
  const own = halfM ** 2 / diffusivity(glass, (temperaturesK[1] ?? 0) - ZERO_K, "solid");
  const fall = ((surfaceC - toC) / dt) * own;
  let core = fall / 2;
  for (let i = 0; i < nextK.length; i += 1) nextK[i] = toC + ZERO_K + fall * (PARABOLA[i] ?? 0);
  for (let m = 0; m < MODES.length; m += 1) {
    const mode = MODES[m];
    if (mode === undefined) continue;
    const steady = (fall * mode.amplitude) / mode.rate;
    const behind = ((modes[m] ?? 0) - steady) * Math.exp((-mode.rate * dt) / own);
    modes[m] = steady + behind;
    core += behind;
    for (let i = 0; i < nextK.length; i += 1) nextK[i] = (nextK[i] ?? 0) + behind * (mode.atDepths[i] ?? 0);
  }
  return core;
}
