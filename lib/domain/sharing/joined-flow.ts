import type { Stage } from "@/lib/domain/firing/casting-plan";
import { hoursInWords, inDigits } from "@/lib/domain/firing/figures";
import { flowHours, LONG_FLOW_HOURS, MOST_FLOW_HOURS, runHours } from "@/lib/domain/firing/flow";
import { LOG_FILLING, MOULD_REFUSE_C, processTemperature } from "@/lib/domain/firing/process-temperature";
import { hold } from "@/lib/domain/firing/segment";
import { LOG_SOFTENING, temperatureAt } from "@/lib/domain/glass/viscosity";
import { ok, refuse, type Outcome, type Refusal } from "@/lib/domain/refusal";
import { metres } from "@/lib/domain/units";
import { apart, commonRange, type OwnRange } from "./common-range";
import { governs } from "./governs";
import type { LaidSharer, PreparedSharer } from "./sharer";

/** Thinner than its working point, 10^3 Pa·s, glass creeps into every crack of a mould (common practice, no source). */
const LOG_THINNEST = 3;
/** Bare glass thinner than 10^4.5 Pa·s runs off over the shelf (common practice, no source). */
const LOG_THINNEST_BARE = 4.5;
/** Where lime glasses may grow crystals, °C (published for window glasses; the hours they are held there are common practice). */
const CRYSTALS_FROM_C = 700;
const CRYSTALS_TO_C = 900;

export type JoinedFlow = { readonly processC: number; readonly stage: Stage; readonly governor: string };

/** Where a casting's glass fills its mould, and what glass, mould, kiln and its member allow at most. */
export function flowRange({ title, input, glass }: LaidSharer): OwnRange {
  const { mould, kiln, processC } = input;
  const low = temperatureAt(glass.viscosity, mould === undefined ? LOG_SOFTENING : LOG_FILLING);
  const thinnest = temperatureAt(glass.viscosity, mould === undefined ? LOG_THINNEST_BARE : LOG_THINNEST);
  const highC = Math.floor(Math.min(thinnest, mould === undefined ? Infinity : MOULD_REFUSE_C, kiln?.maxC ?? Infinity, processC ?? Infinity));
  return { title, glassName: glass.name, lowC: Math.ceil(low), highC: Math.max(highC, processC ?? highC) };
}

/** The hottest flow that any of the castings needs and all of them stand, held as long as the slowest needs. */
export function joinFlow(sharers: readonly PreparedSharer[]): Outcome<JoinedFlow> {
  const ranges = sharers.map(flowRange);
  const none = apart("flow", ranges);
  if (none !== undefined) return none;
  const processC = Math.min(commonRange(ranges).highC, Math.max(...sharers.map((one) => processTemperature(one.input, one.glass))));
  const held = sharers.map((one) => flowOf(one, processC));
  const stiff = sharers.find((_, i) => (held[i]?.running ?? 0) > MOST_FLOW_HOURS);
  if (stiff !== undefined) return refuse(tooStiff(stiff, processC));
  const hours = Math.max(...held.map((one) => one.hours));
  const governor = sharers[held.findIndex((one) => one.hours === hours)];
  const crystals = sharers.map((one) => mayCrystallise(one, processC, hours)).find((refusal) => refusal !== undefined);
  if (crystals !== undefined) return crystals;
  const why = `${inDigits(hours)} h at ${processC} °C until ${governor?.glass.name ?? "the glass"} has run in and settled`;
  return ok({ processC, governor: governor?.castingId ?? "", stage: hold("Flow", processC, hours, governs(sharers, governor, held.every((one) => one.hours === hours), why)) });
}

function flowOf({ input, glass, load, lagHours }: PreparedSharer, processC: number): { readonly running: number; readonly hours: number } {
  const running = runHours(glass, processC, { feeder: input.feeder, headM: metres(load.pot.heightMm), volumeM3: load.glass.chargeKg / glass.densityKgM3 });
  return { running, hours: flowHours(running, lagHours) };
}

function tooStiff({ title, glass, input }: PreparedSharer, processC: number) {
  return {
    code: "does-not-run", field: "feeder.diameterMm", value: input.feeder?.diameterMm, allowed: `no more than ${MOST_FLOW_HOURS} h to run through`,
    message: `${title}: ${glass.name} would need more than ${MOST_FLOW_HOURS} h to run through its feeder at ${processC} °C, the hottest that all castings stand.`,
  };
}

/** A lime glass is held no longer where crystals grow than alone, or than when it takes half a day to run in. Nobody but its maker knows of an own glass, so it counts as one. */
function mayCrystallise({ title, input, glass, alone, lagHours }: PreparedSharer, processC: number, hours: number): Refusal | undefined {
  const lime = typeof input.glass !== "string" || input.glass.startsWith("soda-lime");
  const own = alone.firing.stages.reduce((sum, stage) => sum + (stage.stage === "Flow" ? stage.hours : 0), 0);
  const most = Math.max(flowHours(LONG_FLOW_HOURS, lagHours), own);
  if (!lime || !(processC >= CRYSTALS_FROM_C && processC <= CRYSTALS_TO_C) || hours <= most + 1e-9) return undefined;
  return refuse({
    code: "would-crystallise", field: "glass", value: Math.round(hours), allowed: `up to ${hoursInWords(most)} at ${processC} °C`,
    message: `${title}: ${glass.name} would be held at ${processC} °C for ${hoursInWords(hours)} and may grow crystals between ${CRYSTALS_FROM_C} and ${CRYSTALS_TO_C} °C. Allowed beside it is a casting that has run in and settled within ${hoursInWords(most)}.`,
  });
}
