import type { BodyShape } from "@/lib/domain/heat/radial-grid";
import { boundsOf, CoolingSearch, type Bounds } from "./cooling-search";
import type { CoolingTask, WayDown } from "./cooling-task";
import { simulate, type HistoryRow, type SimulationInput } from "./simulate";
import { standInFor, type StandIn } from "./stand-in";

export type CoolingStress = {
  readonly permanentCentreMPa: number;
  readonly permanentSurfaceMPa: number;
  /** Largest tension anywhere on the way down. */
  readonly passingMPa: number;
  /** Largest core over surface in the slow ramps, K. */
  readonly coreSurfaceK: number;
};

export type ShortestCooling = WayDown & {
  readonly stress: CoolingStress;
  /** How many times the stand-in's tension the round body's own is where it is the larger, else 1: permanent, and passing. */
  readonly roundOver: { readonly permanent: number; readonly passing: number };
};

/** Beyond its limits by no more than the last digit that anybody prints. */
const KEPT = 1.0005;
/** Rates are taken back by a little more than seems needed, so that few checks are enough. */
const CAUTION = 1.003;
const MOST_CHECKS = 6;

/**
 * The shortest way down that keeps to the limits: a drop, a soak until the body is level and relaxed, slow
 * ramps each no faster than the next, and a last one.
 *
 * Every candidate is followed from above the transition by the transient model, structure, stress and all, at
 * three depths; the one that is found is checked by the model at its usual fineness, and its rates are taken
 * back until that keeps to the limits too. Rates are brought to the limits, permanent tension by the slow
 * ramps and passing tension by the last; what is left, where soak and ramps meet, is sought by descent. Ways
 * that would start before the body is level, or slow down again, could be shorter still; they set one error
 * against another, and are not looked for. A body that is no slab is stood for by one (`standInFor`).
 */
export function shortestCooling(task: CoolingTask): ShortestCooling {
  const search = new CoolingSearch(task);
  const x = search.inWholeDegrees(search.shortest());
  const asked = boundsOf(task.limits);
  let bounds = asked;
  for (let check = 1; ; check += 1) {
    const way = search.wayDown(x, bounds);
    const { stress, met, roundOver } = stressOnTheWay(task, way);
    const over = { permanentMPa: met.permanentMPa / asked.permanentMPa, passingMPa: met.passingMPa / asked.passingMPa, dropMPa: met.dropMPa / asked.dropMPa };
    if (Math.max(over.permanentMPa, over.passingMPa, over.dropMPa) <= KEPT || check >= MOST_CHECKS) return { ...way, stress, roundOver };
    bounds = {
      permanentMPa: bounds.permanentMPa / Math.max(1, CAUTION * over.permanentMPa),
      passingMPa: bounds.passingMPa / Math.max(1, CAUTION * over.passingMPa),
      dropMPa: bounds.dropMPa / Math.max(1, CAUTION * over.dropMPa),
    };
  }
}

/** Hours and °C of the surface on a way down, from where the drop starts. */
export function pathOf({ fromC, dropKPerH }: CoolingTask, { drop, soakC, soakHours, slow, last }: WayDown): SimulationInput["program"] {
  const path: [number, number][] = [[0, fromC]];
  const add = (toC: number, hours: number): void => {
    if (hours > 0) path.push([(path.at(-1)?.[0] ?? 0) + hours, toC]);
  };
  add(drop.fromC, (fromC - drop.fromC) / dropKPerH);
  add(soakC, (drop.fromC - soakC) / drop.rateKPerH);
  add(soakC, soakHours);
  for (const { toC, rateKPerH } of [...slow, last]) add(toC, ((path.at(-1)?.[1] ?? toC) - toC) / rateKPerH);
  return path;
}

/** Stresses of the bare body on its way down, by the transient model at its usual fineness; for a round body the larger of its own and its stand-in's. */
function stressOnTheWay(task: CoolingTask, way: WayDown): Pick<ShortestCooling, "stress" | "roundOver"> & { readonly met: Bounds } {
  const { body, round } = task;
  const as = standInFor(body);
  const slab = followed(task, way, "slab", 2 * as.halfM, as);
  if (round === undefined) return { ...slab, roundOver: { permanent: 1, passing: 1 } };
  const own = followed(task, way, round.shape, round.diameterM);
  const larger = (key: keyof Bounds): number => Math.max(slab.met[key], own.met[key]);
  return {
    stress: { ...slab.stress, passingMPa: Math.max(slab.stress.passingMPa, own.stress.passingMPa) },
    met: { permanentMPa: larger("permanentMPa"), passingMPa: larger("passingMPa"), dropMPa: larger("dropMPa") },
    roundOver: { permanent: larger("permanentMPa") / slab.met.permanentMPa, passing: larger("passingMPa") / slab.met.passingMPa },
  };
}

function followed({ glass, fromC, ...task }: CoolingTask, way: WayDown, shape: BodyShape, thicknessM: number, as?: StandIn): { readonly stress: CoolingStress; readonly met: Bounds } {
  const program = pathOf({ glass, fromC, ...task }, way);
  const { permanent, history } = simulate({ glass, shape, thicknessM, mouldWallM: 0, surface: "fixed", startC: fromC, program });
  const slowFrom = program.at(-2 - way.slow.length)?.[0] ?? 0;
  const slowTo = program.at(-2)?.[0] ?? 0;
  const most = (rows: readonly HistoryRow[], of: (row: HistoryRow) => number): number => rows.reduce((sum, row) => Math.max(sum, of(row)), 0);
  const { centre, surface } = as ?? { centre: 1, surface: 1 };
  const tension = (row: HistoryRow): number => (as === undefined ? row.tensionMPa : Math.max(centre * row.centreMPa, surface * row.surfaceMPa));
  const dropMPa = most(history.filter(({ h }) => h <= slowFrom), tension);
  const passingMPa = most(history.filter(({ h }) => h >= slowFrom), tension);
  const permanentCentreMPa = centre * permanent.centreMPa;
  const permanentSurfaceMPa = surface * permanent.surfaceMPa;
  return {
    stress: {
      permanentCentreMPa, permanentSurfaceMPa,
      passingMPa: Math.max(dropMPa, passingMPa),
      coreSurfaceK: most(history.filter(({ h }) => h >= slowFrom && h <= slowTo), ({ coreC, surfaceC }) => coreC - surfaceC),
    },
    met: { permanentMPa: Math.max(permanentCentreMPa, permanentSurfaceMPa), passingMPa, dropMPa },
  };
}
