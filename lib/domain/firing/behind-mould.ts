import { DROP_RATE, hoursToRoom, kilnRamp, openHours, PROGRAM_END_C } from "@/lib/domain/firing/cooling";
import { glassHeatJPerM3K } from "@/lib/domain/firing/planned-body";
import { wallOfLagM } from "@/lib/domain/heat/mould-heat";
import type { CoolingTask, WayDown } from "@/lib/domain/stress/cooling-task";
import type { CoolingStress, ShortestCooling } from "@/lib/domain/stress/shortest-cooling";
import { simulate, USUAL_FINENESS, type SimulationInput } from "@/lib/domain/stress/simulate";
import { standInFor, stressInBody } from "@/lib/domain/stress/stand-in";
import { ROOM_C } from "@/lib/domain/units";

/** Beyond its limits by no more than the last digit that anybody prints, and this near to them is near enough. */
const KEPT = 1.0005;
const NEAR = 0.985;
/** Rates aim a little below the limits, so that few checks are enough. */
const AIM = 0.996;
const MOST_CHECKS = 8;

/** A mould that the glass follows through so many hours late, and how long it waits at the soak until it has arrived. */
export type Behind = { readonly lagHours: number; readonly arrivalHours: number };

type Met = { readonly stress: CoolingStress; readonly permanentMPa: number; readonly dropMPa: number; readonly slowMPa: number; readonly lastMPa: number; readonly frozenMPa: number };

/**
 * A way down that was found for the bare body, set right for the same body in its mould. A mould rounds the
 * corners of a program: while stress freezes in, the glass goes slower than the kiln, so less is frozen in than
 * by the bare body, and less compression is left at the surface to use up in the run-down. So the kiln's own
 * program is followed behind the wall, and its slow ramps and its last one are brought to their limits there,
 * up or down, never faster than the mould lets through; its drop is as slow as the passing tension asks. `task` is the one `bare` was found for.
 */
export function setBehind(task: CoolingTask, bare: ShortestCooling, behind: Behind): ShortestCooling {
  const limits = { permanentMPa: Math.min(task.limits.permanentMPa, task.limits.passingMPa) / bare.roundOver.permanent, passingMPa: task.limits.passingMPa / bare.roundOver.passing };
  let way: WayDown = { ...bare, drop: { fromC: task.fromC, rateKPerH: DROP_RATE } };
  for (let check = 1; ; check += 1) {
    const met = followed(task, way, behind);
    const over = Math.max(met.permanentMPa / limits.permanentMPa, Math.max(met.dropMPa, met.slowMPa, met.lastMPa) / limits.passingMPa);
    const next = corrected(task, bare, way, met, limits);
    const gain = Math.max(...[...way.slow, way.last].map(({ rateKPerH }, i) => ([...next.slow, next.last][i]?.rateKPerH ?? 0) / rateKPerH));
    if ((over <= KEPT && gain <= 1 / NEAR) || check >= MOST_CHECKS) return { ...bare, ...way, stress: met.stress };
    way = next;
  }
}

/** Stress goes with the rate; the last rate also has what is frozen into the surface to use up. */
function corrected({ fastestKPerH }: CoolingTask, bare: WayDown, way: WayDown, met: Met, limits: { readonly permanentMPa: number; readonly passingMPa: number }): WayDown {
  const aim = { permanentMPa: AIM * limits.permanentMPa, passingMPa: AIM * limits.passingMPa };
  const last = Math.min(fastestKPerH, (way.last.rateKPerH * (aim.passingMPa + met.frozenMPa)) / Math.max(met.lastMPa + met.frozenMPa, 1e-6));
  const passing = met.slowMPa > limits.passingMPa ? aim.passingMPa / met.slowMPa : Infinity;
  const faster = Math.min(passing, aim.permanentMPa / Math.max(met.permanentMPa, 1e-6));
  return {
    ...way,
    drop: met.dropMPa > limits.passingMPa ? slowerDrop(way, bare, aim.passingMPa / met.dropMPa) : way.drop,
    slow: way.slow.map(({ toC, rateKPerH }) => ({ toC, rateKPerH: Math.min(last, rateKPerH * faster) })),
    last: { ...way.last, rateKPerH: last },
  };
}

/**
 * From where the glass stiffens on, as the bare body's drop, and never slower than that: what is behind a wall is
 * pulled less. A thick body is pulled while it levels, which hardly goes with the rate, so go well down at once.
 */
function slowerDrop(way: WayDown, { drop }: WayDown, share: number): WayDown["drop"] {
  const now = way.drop.rateKPerH;
  return { fromC: drop.fromC, rateKPerH: Math.max(Math.min(drop.rateKPerH, now), Math.min(now * share, Math.sqrt(now * drop.rateKPerH))) };
}

/** The kiln's program from where the glass still flows to the room, when the kiln keeps to it. */
function kilnProgram({ fromC, body }: CoolingTask, way: WayDown, { lagHours, arrivalHours }: Behind): { readonly program: [number, number][]; readonly slowFromH: number; readonly lastFromH: number } {
  const program: [number, number][] = [[0, fromC]];
  const now = (): [number, number] => program.at(-1) ?? [0, fromC];
  const fall = (toC: number, rateKPerH: number): void => {
    const [h, c] = now();
    if (toC < c) program.push([h + (c - toC) / rateKPerH, toC]);
  };
  const hold = (hours: number): void => {
    const [h, c] = now();
    if (hours > 0) program.push([h + hours, c]);
  };
  fall(Math.round(Math.min(fromC, way.drop.fromC)), DROP_RATE);
  fall(Math.round(way.soakC), way.drop.rateKPerH);
  hold(arrivalHours + way.soakHours);
  const [slowFromH] = now();
  for (const one of way.slow) {
    const { toC, rateKPerH } = kilnRamp(one, lagHours);
    fall(toC, rateKPerH);
  }
  const [lastFromH] = now();
  fall(PROGRAM_END_C, way.last.rateKPerH);
  const opening = openHours(body, lagHours);
  hold(opening);
  program.push([now()[0] + hoursToRoom(opening, way.last.rateKPerH), ROOM_C]);
  return { program, slowFromH, lastFromH };
}

function followed(task: CoolingTask, way: WayDown, behind: Behind): Met {
  const { glass, body, fromC } = task;
  const as = standInFor(body);
  const { program, slowFromH, lastFromH } = kilnProgram(task, way, behind);
  const mouldWallM = wallOfLagM(behind.lagHours, glassHeatJPerM3K(glass), as.halfM);
  const input: SimulationInput = { glass, shape: "slab", thicknessM: 2 * as.halfM, mouldWallM, surface: "fixed", startC: fromC, program };
  let [dropMPa, slowMPa, lastMPa, coreSurfaceK] = [0, 0, 0, 0];
  const { permanent } = simulate(input, USUAL_FINENESS, (row, profile) => {
    const { tensionMPa } = stressInBody(as, row, profile);
    if (row.h < slowFromH) dropMPa = Math.max(dropMPa, tensionMPa);
    else if (row.h >= lastFromH) lastMPa = Math.max(lastMPa, tensionMPa);
    else [slowMPa, coreSurfaceK] = [Math.max(slowMPa, tensionMPa), Math.max(coreSurfaceK, row.coreC - row.surfaceC)];
  });
  const permanentCentreMPa = as.centre * permanent.centreMPa;
  const permanentSurfaceMPa = as.surface * permanent.surfaceMPa;
  return {
    stress: { permanentCentreMPa, permanentSurfaceMPa, passingMPa: Math.max(dropMPa, slowMPa, lastMPa), coreSurfaceK },
    permanentMPa: Math.max(permanentCentreMPa, permanentSurfaceMPa), dropMPa, slowMPa, lastMPa, frozenMPa: Math.max(0, -permanentSurfaceMPa),
  };
}
