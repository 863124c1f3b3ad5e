import type { CastingPlan, Stage } from "@/lib/domain/firing/casting-plan";
import { energyKWh } from "@/lib/domain/firing/energy";
import { fitController, segmentsOf } from "@/lib/domain/firing/fit-controller";
import { wallDryHours } from "@/lib/domain/firing/heating";
import { loadedKiln, powerProblem } from "@/lib/domain/firing/loaded-kiln";
import { NOT_COVERED_SENTENCE } from "@/lib/domain/firing/not-covered";
import { CALCULATION } from "@/lib/domain/firing/plan";
import { reservationFor } from "@/lib/domain/firing/reservation";
import { totalHours } from "@/lib/domain/firing/segment";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { retardationNmPerCm } from "@/lib/domain/stress/retardation";
import { followEach, type Followed } from "./follow-each";
import { joinCooling } from "./joined-cooling";
import { joinFlow } from "./joined-flow";
import { joinHeating } from "./joined-heating";
import { joinLoad } from "./joined-load";
import { prepareSharers, type PreparedSharer, type Sharer } from "./sharer";
import { sharedCasting } from "./shared-casting";
import { shelfFor, type ShelfLimits, type ShelfLoad } from "./shelf-for";

/**
 * One plan for several castings in one kiln, governed at every stage by the slowest of them: the longest waits,
 * the slowest climbs, the hottest flow that is needed within what all stand, the longest soak, the slowest way
 * down, each casting followed through it behind its own mould. All inputs name the same kiln, whose shelf is
 * `limits`. A refusal names the casting, what it stands and what would be allowed. No order matters.
 *
 * The flow is the hottest that any needs, so a casting that alone would flow cooler runs in sooner here.
 */
export function joinPlans(sharers: readonly Sharer[], limits: ShelfLimits): Outcome<CastingPlan> {
  if (sharers.length < 2) return refuse({ code: "too-few", field: "castings", value: sharers.length, allowed: "two or more", message: "A shared firing has two castings or more." });
  const prepared = prepareSharers(sharers);
  if (!prepared.ok) return prepared;
  const shelf = shelfFor(prepared.value, limits);
  if (!shelf.ok) return shelf;
  return joinPrepared(prepared.value, shelf.value);
}

function joinPrepared(all: readonly PreparedSharer[], shelf: ShelfLoad): Outcome<CastingPlan> {
  const kiln = all[0]?.input.kiln;
  const boxMm = boxOf(shelf);
  const load = joinLoad(all, boxMm);
  const loaded = loadedKiln(kiln, load);
  const flow = joinFlow(all);
  if (!flow.ok) return flow;
  const { processC } = flow.value;
  const weak = powerProblem(loaded, processC);
  if (weak !== undefined) return refuse(weak);
  const before = [...joinHeating(all, load, loaded, processC), { stage: flow.value.stage, governor: flow.value.governor }];
  const cooling = joinCooling(all, processC, { loaded, kiln });
  if (!cooling.ok) return cooling;
  const followed = followEach(all, before, cooling.value);
  if (!followed.ok) return followed;
  const lines = [...before.map(({ stage }) => ({ ...stage, segments: 1 })), ...followed.value.lines.map(({ stage }) => stage)];
  const program = fitController(lines, kiln?.controllerSegments);
  const stages = program.map(({ segments: _segments, ...stage }): Stage => stage);
  const hours = totalHours(stages);
  const wettest = all.flatMap(({ input: { mould } }) => (mould === undefined ? [] : [mould])).sort((a, b) => wallDryHours(b.wallMm) - wallDryHours(a.wallMm))[0];
  return ok({
    calculation: CALCULATION,
    ...load,
    loadMm: { width: boxMm[0], depth: boxMm[1], height: boxMm[2] },
    shelfKg: shelf.loadKg,
    steamOut: { hours: Math.max(...all.map(({ alone }) => alone.steamOut.hours)), condensateKg: all.reduce((sum, { alone }) => sum + alone.steamOut.condensateKg, 0) },
    drying: { airDaysFrom: Math.max(...all.map(({ alone }) => alone.drying.airDaysFrom)), airDaysTo: Math.max(...all.map(({ alone }) => alone.drying.airDaysTo)) },
    shape: { slabEquivalentMm: Math.max(...all.map(({ alone }) => alone.shape.slabEquivalentMm)), volumeL: all.reduce((sum, { alone }) => sum + alone.shape.volumeL, 0) },
    firing: { stages, hours, annealingHours: annealingHours(stages), peakC: processC },
    stress: worstStress(all, followed.value),
    reservation: reservationFor({ program, mould: wettest, learned: kiln?.margin }),
    energy: { kWh: energyKWh(stages, load, loaded) },
    lifts: all.flatMap((one) => one.alone.lifts.map((lift) => ({ ...lift, castingId: one.castingId }))),
    warnings: warnings(all, followed.value, kiln?.controllerSegments, segmentsOf(program)),
    castings: all.map((one, i) => sharedCasting(one, followed.value.stress[i], shelf.places)),
  });
}

/** From the first left edge to the last right one, and as tall as the tallest. */
function boxOf({ places, heightMm }: ShelfLoad): readonly [number, number, number] {
  const span = (from: (one: ShelfLoad["places"][number]) => number, size: (one: ShelfLoad["places"][number]) => number): number => Math.max(...places.map((one) => from(one) + size(one))) - Math.min(...places.map(from));
  return [span(({ xMm }) => xMm, ({ widthMm }) => widthMm), span(({ yMm }) => yMm, ({ depthMm }) => depthMm), heightMm];
}

function annealingHours(stages: readonly Stage[]): number {
  const cooling = stages.slice(stages.findIndex(({ stage }) => stage === "Soak")).filter(({ stage }) => stage !== "Open");
  const last = cooling.at(-1);
  return totalHours(cooling) + (last === undefined || last.toC <= 25 ? 0 : (last.toC - 25) / Math.abs(last.rateKPerH));
}

/** The largest of each figure over all castings. */
function worstStress(all: readonly PreparedSharer[], { stress }: Followed): CastingPlan["stress"] {
  const centre = Math.max(...stress.map((one) => one.permanentCentreMPa));
  const at = all[stress.findIndex((one) => one.permanentCentreMPa === centre)];
  return {
    permanentCentreMPa: centre,
    permanentSurfaceMPa: Math.max(...stress.map((one) => one.permanentSurfaceMPa)),
    passingMPa: Math.max(...stress.map((one) => one.passingMPa)),
    coreSurfaceK: Math.max(...all.map(({ alone }) => alone.stress.coreSurfaceK)),
    centreNmPerCm: at === undefined ? 0 : retardationNmPerCm(at.glass, centre),
  };
}

function warnings(all: readonly PreparedSharer[], { stress }: Followed, available: number | undefined, segments: number): string[] {
  const more = available !== undefined && segments > available
    ? [`The joined program needs ${segments} segments; this controller holds ${available}. Run it as ${Math.ceil(segments / available)} programs, one after another, or step by hand.`]
    : [];
  const over = all.flatMap(({ title, limits }, i) => {
    const own = stress[i];
    if (own === undefined) return [];
    const permanent = Math.max(own.permanentCentreMPa, own.permanentSurfaceMPa);
    if (permanent <= 1.01 * limits.permanentMPa && own.passingMPa <= 1.01 * limits.passingMPa) return [];
    return [`${title} stays above its stress level as it does in its own plan: ${permanent.toFixed(2)} MPa permanent, ${own.passingMPa.toFixed(2)} MPa passing.`];
  });
  const own = all.flatMap(({ title, alone }) => alone.warnings.filter((text) => text !== NOT_COVERED_SENTENCE && !text.startsWith("The program needs")).map((text) => `${title}: ${text}`));
  return [...more, ...over, ...own, NOT_COVERED_SENTENCE];
}
