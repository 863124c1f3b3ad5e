import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { CastingPlan, Stage, StageName } from "@/lib/domain/firing/casting-plan";
import { hoursToRoom } from "@/lib/domain/firing/cooling";
import { thinned, type BodyRow } from "@/lib/domain/firing/history-rows";
import { loadMasses, meshNotRead } from "@/lib/domain/firing/load-masses";
import { bodyOfCasting, glassHeatJPerM3K, lagOfCasting } from "@/lib/domain/firing/planned-body";
import { totalHours } from "@/lib/domain/firing/segment";
import { completeGlass } from "@/lib/domain/glass/complete-glass";
import type { Glass } from "@/lib/domain/glass/glass";
import { wallOfLagM } from "@/lib/domain/heat/mould-heat";
import { ok, type Outcome } from "@/lib/domain/refusal";
import type { MeshBody } from "@/lib/domain/shape/mesh/mesh-body";
import { simulate, USUAL_FINENESS, type SimulationInput } from "@/lib/domain/stress/simulate";
import { standInFor, stressInBody } from "@/lib/domain/stress/stand-in";
import { keptStructureC } from "@/lib/domain/stress/warming";
import { millimetres, ROOM_C } from "@/lib/domain/units";

export type Moment = { readonly name: "Slow cool begins" | "Slow cool ends" | "Half way down" | "Cold"; readonly h: number };

/** How a casting's glass lives through its program. Stresses are the body's own, tension positive. */
export type PlanHistory = {
  readonly rows: readonly BodyRow[];
  /** Where the profiles of the rows are known, mm from the middle of the slab that stands for the body. */
  readonly atMm: readonly number[];
  /** Half the thickness of that slab, and the wall through which it follows as late as the casting through its own, mm. */
  readonly halfMm: number;
  readonly wallMm: number;
  /** From here on the glass is where the piece will be; before, a casting's is still in the pot or running. */
  readonly glassFromH: number;
  /** The way down begins, at the end of Flow: the stress level speaks of what follows. */
  readonly downFromH: number;
  readonly moments: readonly Moment[];
  /** `passingMPa` is the largest tension anywhere on the way down, from the end of Flow. */
  readonly stress: { readonly permanentCentreMPa: number; readonly permanentSurfaceMPa: number; readonly passingMPa: number; readonly passingAtH: number };
};

/**
 * The plan's own program, followed from the cold kiln to the room by the transient model: kiln, surface, core
 * and stress, behind the mould. A slab stands for the body (`standInFor`), behind a wall that makes it follow
 * as late as the plan takes the casting to; the kiln is taken to follow its program, drying water is not
 * followed, and after the program everything is left to come to the room. `input` is what `plan` was made from.
 */
export function planHistory(input: CastingInput, plan: Pick<CastingPlan, "firing">, mesh?: MeshBody): Outcome<PlanHistory> {
  const completed = completeGlass(input.glass);
  if (!completed.ok) return completed;
  const unread = meshNotRead(input, mesh);
  if (unread !== undefined) return unread;
  const { glass } = completed.value;
  const { stages } = plan.firing;
  const load = loadMasses(input, glass, mesh);
  const as = standInFor(bodyOfCasting(input, load));
  const lag = lagOfCasting(input, load, glass);
  const mouldWallM = lag > 0 ? wallOfLagM(lag, glassHeatJPerM3K(glass), as.halfM) : 0;
  const all: BodyRow[] = [];
  let atM: readonly number[] = [];
  simulate(
    { glass, shape: "slab", thicknessM: 2 * as.halfM, mouldWallM, surface: "fixed", startC: ROOM_C, structureC: structureOf(glass, stages), program: programOf(stages) }, USUAL_FINENESS,
    (row, profile) => {
      const { h, kilnC, surfaceC, coreC } = row;
      const { centreMPa, surfaceMPa, MPa } = stressInBody(as, row, profile);
      atM = profile.atM;
      all.push({ h, kilnC, surfaceC, coreC, centreMPa, surfaceMPa, celsius: profile.celsius, MPa });
    },
  );
  const downFromH = startOf(stages, "Drop") ?? startOf(stages, "Soak") ?? 0;
  const last = all.at(-1);
  const most = passing(all, downFromH);
  return ok({
    rows: thinned(all, cornersOf(stages)),
    atMm: atM.map(millimetres),
    halfMm: millimetres(as.halfM),
    wallMm: millimetres(mouldWallM),
    glassFromH: input.mould === undefined ? 0 : downFromH,
    downFromH,
    moments: momentsOf(stages, last?.h ?? 0),
    stress: { permanentCentreMPa: last?.centreMPa ?? 0, permanentSurfaceMPa: last?.surfaceMPa ?? 0, ...most },
  });
}

/** Bare glass is taken to have cooled once as slowly as it will now (as `fastestWarming` takes it); what runs into a mould forgets. */
function structureOf(glass: Glass, stages: readonly Stage[]): number | undefined {
  const slow = stages.find(({ stage }) => stage === "Slow cool");
  return slow === undefined ? undefined : keptStructureC(glass, -slow.rateKPerH);
}

function programOf(stages: readonly Stage[]): SimulationInput["program"] {
  const corners = cornersOf(stages);
  const endH = corners.at(-1) ?? 0;
  const down = stages.findLast(({ stage }) => stage === "Run-down");
  const toRoom = hoursToRoom(stages.at(-1)?.hours ?? 1, -(down?.rateKPerH ?? -Infinity));
  return [[0, ROOM_C], ...stages.map((stage, i) => [corners[i] ?? 0, stage.toC] as const), [endH + toRoom, ROOM_C]];
}

/** Hours at which the stages end. */
function cornersOf(stages: readonly Stage[]): readonly number[] {
  return stages.map((_, i) => totalHours(stages.slice(0, i + 1)));
}

function startOf(stages: readonly Stage[], name: StageName): number | undefined {
  const at = stages.findIndex(({ stage }) => stage === name);
  return at < 0 ? undefined : totalHours(stages.slice(0, at));
}

/** Largest tension from an hour on, anywhere between middle and surface. */
function passing(rows: readonly BodyRow[], fromH: number): { readonly passingMPa: number; readonly passingAtH: number } {
  let most = { passingMPa: 0, passingAtH: fromH };
  for (const { h, MPa, surfaceMPa, centreMPa } of rows) {
    const tension = Math.max(surfaceMPa, centreMPa, ...MPa);
    if (h >= fromH && tension > most.passingMPa) most = { passingMPa: tension, passingAtH: h };
  }
  return most;
}

function momentsOf(stages: readonly Stage[], coldH: number): readonly Moment[] {
  const slow = startOf(stages, "Slow cool");
  const down = startOf(stages, "Run-down");
  const open = startOf(stages, "Open");
  return [
    ...(slow === undefined ? [] : [{ name: "Slow cool begins", h: slow } as const]),
    ...(down === undefined ? [] : [{ name: "Slow cool ends", h: down } as const]),
    ...(down === undefined || open === undefined ? [] : [{ name: "Half way down", h: (down + open) / 2 } as const]),
    { name: "Cold", h: coldH },
  ];
}
