import type { Stage, StageName } from "@/lib/domain/firing/casting-plan";
import { heatBareGlass, heatMould } from "@/lib/domain/firing/heating";
import type { HeatedLoad } from "@/lib/domain/firing/loaded-kiln";
import { hold, ramp } from "@/lib/domain/firing/segment";
import type { LoadedKiln } from "@/lib/domain/heat/kiln-heat";
import { ROOM_C } from "@/lib/domain/units";
import { governs } from "./governs";
import type { PreparedSharer } from "./sharer";

export type GovernedStage = { readonly stage: Stage; readonly governor: string };

/** One casting's way up in the kiln with the whole load: where it waits, and how fast it may climb in between. */
type WayUp = { readonly sharer: PreparedSharer; readonly stages: readonly (Stage & { readonly fromC: number })[] };

/** Dry and Climb of all castings as one: at every temperature the slowest climb, at every wait the longest. */
export function joinHeating(sharers: readonly PreparedSharer[], load: HeatedLoad, kiln: LoadedKiln | undefined, processC: number): readonly GovernedStage[] {
  const ways = sharers.map((sharer): WayUp => ({ sharer, stages: withStart(wayUp(sharer, load, kiln, processC)) }));
  const corners = [...new Set(ways.flatMap(({ stages }) => stages.map(({ toC }) => toC)))].sort((a, b) => a - b);
  const joined: GovernedStage[] = [];
  let fromC = ROOM_C;
  for (const toC of corners) {
    if (toC > fromC) joined.push(slowestClimb(ways, fromC, toC));
    const waited = longestWait(ways, toC);
    if (waited !== undefined) joined.push(waited);
    fromC = toC;
  }
  return merged(joined);
}

function wayUp({ input, load, glass, body, alone }: PreparedSharer, whole: HeatedLoad, kiln: LoadedKiln | undefined, processC: number): readonly Stage[] {
  // All the water has to leave through the same vent, with the same kilowatts.
  const { freeWaterKg, boundWaterKg } = whole.mould;
  const heating = { input, load: { ...load, mould: { ...load.mould, freeWaterKg, boundWaterKg } }, kiln, processC };
  if (input.mould !== undefined) return heatMould(heating, input.mould.wallMm);
  const slow = alone.firing.stages.find(({ stage }) => stage === "Slow cool");
  return heatBareGlass(heating, { glass, body, cooledKPerH: -(slow?.rateKPerH ?? -1) });
}

function withStart(stages: readonly Stage[]): WayUp["stages"] {
  return stages.map((stage, i) => ({ ...stage, fromC: stages[i - 1]?.toC ?? ROOM_C }));
}

function slowestClimb(ways: readonly WayUp[], fromC: number, toC: number): GovernedStage {
  const own = ways.flatMap(({ sharer, stages }) => {
    const stage = stages.find((one) => one.rateKPerH > 0 && one.fromC <= fromC && one.toC >= toC);
    return stage === undefined ? [] : [{ sharer, stage }];
  });
  const rate = Math.min(...own.map(({ stage }) => stage.rateKPerH));
  const first = own.find(({ stage }) => stage.rateKPerH === rate);
  const name: StageName = own.some(({ stage }) => stage.stage === "Dry") ? "Dry" : "Climb";
  const why = governs(ways.map(({ sharer }) => sharer), first?.sharer, own.every(({ stage }) => stage.rateKPerH === rate), first?.stage.why ?? "");
  return { stage: ramp(name, fromC, toC, rate, why), governor: first?.sharer.castingId ?? "" };
}

function longestWait(ways: readonly WayUp[], atC: number): GovernedStage | undefined {
  const waits = ways.map(({ sharer, stages }) => ({ sharer, stage: stages.find((one) => one.rateKPerH === 0 && one.toC === atC) }));
  const hours = Math.max(...waits.map(({ stage }) => stage?.hours ?? 0));
  const first = waits.find(({ stage }) => stage?.hours === hours);
  if (first?.stage === undefined) return undefined;
  const why = governs(ways.map(({ sharer }) => sharer), first.sharer, waits.every(({ stage }) => stage?.hours === hours), first.stage.why);
  return { stage: hold(first.stage.stage, atC, hours, why), governor: first.sharer.castingId };
}

/** Neighbouring climbs at one rate for one reason are one line of the program. */
function merged(stages: readonly GovernedStage[]): readonly GovernedStage[] {
  const lines: GovernedStage[] = [];
  for (const one of stages) {
    const last = lines.at(-1);
    const same = last !== undefined && last.stage.why === one.stage.why && last.stage.stage === one.stage.stage && last.stage.rateKPerH > 0 && last.stage.rateKPerH === one.stage.rateKPerH;
    if (same) lines[lines.length - 1] = { ...last, stage: { ...last.stage, toC: one.stage.toC, hours: last.stage.hours + one.stage.hours } };
    else lines.push(one);
  }
  return lines;
}
