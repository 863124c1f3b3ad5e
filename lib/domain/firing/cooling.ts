import type { CastingInput, KilnForPlan } from "@/lib/domain/firing/casting-input";
import type { Stage } from "@/lib/domain/firing/casting-plan";
import { hoursInWords, inDigits } from "@/lib/domain/firing/figures";
import { hold, ramp, rampIn } from "@/lib/domain/firing/segment";
import { WALL_DIFFERENCE_K } from "@/lib/domain/heat/mould-heat";
import type { Problem } from "@/lib/domain/refusal";
import { coolingHours, naturalLimitC, type LoadedKiln } from "@/lib/domain/heat/kiln-heat";
import type { CoolingBody } from "@/lib/domain/shape/cooling-body";
import type { CoolingRamp } from "@/lib/domain/stress/cooling-task";
import type { SlowCool } from "@/lib/domain/stress/quasi-steady";
import type { ShortestCooling } from "@/lib/domain/stress/shortest-cooling";
import type { StressLimits } from "@/lib/domain/stress/stress-level";
import { millimetres, ROOM_C } from "@/lib/domain/units";

/** Faster than this breaks plaster moulds on the way down (published experience above 800 °C). */
export const DROP_RATE = 150;
/** Thick-slab tables of two makers soak 4 h for every 25 mm; it covers a kiln that is not equally warm everywhere. */
const SOAK_HOURS_PER_MM = 4 / 25;
/** Glass and kiln are level when they differ by no more than this, K (common practice: all parts within 5 K). */
const LEVEL_K = 5;
/** The program ends here; the core, a little warmer, may then be opened to the room. */
export const PROGRAM_END_C = 40;
const LEAST_OPEN_HOURS = 1;

export type Cooling = {
  readonly processC: number;
  readonly body: CoolingBody;
  readonly shortest: ShortestCooling;
  readonly limits: StressLimits;
  readonly level: CastingInput["stress"];
  readonly lagHours: number;
  readonly loaded: LoadedKiln | undefined;
  readonly kiln: KilnForPlan | undefined;
};

/** A stage, and how many segments it takes in the controller: two for every step of a rate too slow for it. */
export type Programmed = Stage & { readonly segments: number };

/** Drop, Soak, Slow cool, Run-down and Open. */
export function coolingStages(cooling: Cooling): Programmed[] {
  const { processC, shortest } = cooling;
  const soakC = Math.round(shortest.soakC);
  return [
    ...drop(cooling, processC, soakC).map((stage) => ({ ...stage, segments: 1 })),
    { ...soak(cooling, soakC), segments: 1 },
    ...slowCoolStages(cooling, soakC),
    { ...open(cooling), segments: 0 },
  ];
}

/** As fast as can be; where stiffening glass would be pulled too hard, the end of it more slowly. */
function drop(cooling: Cooling, fromC: number, toC: number): Stage[] {
  if (!(fromC > toC)) return [];
  const { fromC: softC, rateKPerH } = cooling.shortest.drop;
  const bendC = Math.min(fromC, Math.round(softC));
  if (!(rateKPerH < DROP_RATE && bendC > toC)) return [fallAtOnce(cooling, fromC, toC)];
  const why = `Stiffening glass is pulled when its surface runs ahead: ${inDigits(rateKPerH)} K/h from ${bendC} °C on keeps that within ${inDigits(cooling.limits.passingMPa)} MPa.`;
  const slowed = rampIn("Drop", bendC, toC, fall(cooling.loaded, bendC, toC, rateKPerH), why);
  return bendC < fromC ? [fallAtOnce(cooling, fromC, bendC), slowed] : [slowed];
}

function fallAtOnce({ loaded }: Cooling, fromC: number, toC: number): Stage {
  const hours = fall(loaded, fromC, toC, DROP_RATE);
  const pace = loaded === undefined ? `at no more than ${DROP_RATE} K/h` : `as fast as the closed kiln loses heat, about ${inDigits((fromC - toC) / hours)} K/h`;
  return rampIn("Drop", fromC, toC, hours, `From ${fromC} to ${toC} °C ${pace}: nothing is frozen in yet, and the hot hours cost the mould.`);
}

/** What a soak at its own temperature must last whatever the glass needs: at the careful level the tables' hours, less those of arriving. */
export function leastSoakHours(level: CastingInput["stress"], body: CoolingBody, arrival: number): number {
  return level === "careful" ? Math.max(0, SOAK_HOURS_PER_MM * millimetres(body.slabEquivalentM) - arrival) : 0;
}

/**
 * Hours until glass behind a mould is within a few kelvin of a kiln that fell straight to its soak: it follows
 * like a body with one time, its lag.
 */
export function arrivalHours(lagHours: number, fallK: number): number {
  if (!(lagHours > 0) || !(fallK > 0)) return 0;
  const fallHours = fallK / DROP_RATE;
  const behindK = DROP_RATE * lagHours * (1 - Math.exp(-fallHours / lagHours));
  return lagHours * Math.log(Math.max(1, behindK / LEVEL_K));
}

function soak({ processC, body, level, shortest, lagHours }: Cooling, soakC: number): Stage {
  const thicknessMm = millimetres(body.slabEquivalentM);
  const arrival = arrivalHours(lagHours, processC - soakC);
  const behind = arrival > 0 ? `${inDigits(arrival)} h until glass that follows ${inDigits(lagHours)} h late through its mould is within ${LEVEL_K} K of the kiln, and ` : "";
  const glass = `${inDigits(shortest.soakHours)} h until the core of a ${inDigits(thicknessMm)} mm slab is level with its surface and free of stress`;
  const tables = level === "careful" ? ", in all no less than the published tables' 4 h for 25 mm, which also level the kiln" : "; a kiln that is not equally warm everywhere needs longer";
  return hold("Soak", soakC, arrival + shortest.soakHours, `Old stress must be gone before new can be kept out: ${behind}${glass}${tables}.`);
}

/** The kiln reads low by rate × lag while the glass is still in range, so each slow ramp ends that much lower. */
export function kilnRamp({ toC, rateKPerH }: CoolingRamp, lagHours: number): CoolingRamp {
  return { toC: toC - lagHours * rateKPerH, rateKPerH };
}

function slowCoolStages(cooling: Cooling, soakC: number): Programmed[] {
  const { shortest, limits, lagHours } = cooling;
  const stages: Programmed[] = [];
  let fromC = soakC;
  shortest.slow.map((one) => kilnRamp(one, lagHours)).forEach(({ toC: kilnToC, rateKPerH }, i) => {
    const why = i === 0
      ? `Stress freezes in here: ${inDigits(rateKPerH)} K/h leaves no more than ${inDigits(limits.permanentMPa)} MPa in the core${follows(cooling, rateKPerH)}`
      : `A last part may still settle: ${inDigits(rateKPerH)} K/h over ${inDigits(fromC - kilnToC)} K`;
    stages.push(...falling(cooling, "Slow cool", fromC, kilnToC, rateKPerH, `${why}${slowSteps(cooling, fromC - kilnToC, rateKPerH)}.`));
    fromC = Math.min(fromC, kilnToC);
  });
  const rate = shortest.last.rateKPerH;
  return [
    ...stages,
    ...falling(cooling, "Run-down", fromC, PROGRAM_END_C, rate, `Nothing freezes in any more; ${inDigits(rate)} K/h keeps the passing tension within ${inDigits(limits.passingMPa)} MPa${follows(cooling, rate)}${slowSteps(cooling, fromC - PROGRAM_END_C, rate)}.`),
  ];
}

/** Says when it is the mould, not the glass, that sets a rate. */
function follows({ lagHours }: Cooling, rate: number): string {
  return rate < fastestBehind(lagHours) ? "" : `, and is all that the mould lets through with ${WALL_DIFFERENCE_K} K across it`;
}

/** The fastest ramp, K/h, at which the glass stays within a wall's allowed difference of the kiln. */
export function fastestBehind(lagHours: number): number {
  return lagHours > 0 ? WALL_DIFFERENCE_K / lagHours : Infinity;
}

/** A glass so slow or so soft that its slow cooling would end below the end of the program; none that is cast is. */
export function endsTooCold({ settling }: SlowCool): Problem | undefined {
  const least = PROGRAM_END_C + WALL_DIFFERENCE_K;
  if (settling.toC > least) return undefined;
  const toC = Math.round(settling.toC);
  return {
    code: "freezes-too-cold", field: "glass", value: toC, allowed: `above ${least} °C`,
    message: `This glass would have to be cooled slowly down to ${toC} °C; it must be stiff above ${least} °C. Check its viscosity or fixed points.`,
  };
}

/** One ramp at the rate as long as the kiln loses heat fast enough, and one at its own pace below. */
function falling({ loaded, kiln }: Cooling, stage: "Slow cool" | "Run-down", fromC: number, toC: number, rate: number, why: string): Programmed[] {
  if (!(fromC > toC)) return [];
  const limitC = loaded === undefined ? toC : Math.min(fromC, Math.max(toC, naturalLimitC(loaded, rate)));
  const stages: Programmed[] = [];
  const stepped = kiln?.minRateKPerH !== undefined && rate < kiln.minRateKPerH;
  if (fromC > limitC) stages.push({ ...ramp(stage, fromC, limitC, rate, why), segments: stepped ? 2 * Math.ceil((fromC - limitC) / STEP_K) : 1 });
  if (limitC > toC) {
    const hours = fall(loaded, limitC, toC, rate);
    stages.push({ ...rampIn(stage, limitC, toC, hours, `Below ${inDigits(limitC)} °C the closed kiln cools more slowly than the glass would need: about ${hoursInWords(hours)} at its own pace.`), segments: 1 });
  }
  return stages;
}

/** Hours behind the closed door after the program, until the core has come down as far as its surface has. */
export function openHours(body: CoolingBody, lagHours: number): number {
  const core = (2 * millimetres(body.slabEquivalentM)) / 50;
  return Math.max(LEAST_OPEN_HOURS, lagHours + core);
}

/** What is left after the last stage comes to the room in this many times that stage: slowly beside the piece's own time. */
const LEFT_ALONE = 3;

/** Hours in which the opened piece is taken to come to the room: left alone, and no faster than its last ramp. */
export function hoursToRoom(openHours: number, lastKPerH: number): number {
  return Math.max(LEFT_ALONE * openHours, (PROGRAM_END_C - ROOM_C) / lastKPerH);
}

function open({ lagHours, body }: Cooling): Stage {
  const hours = openHours(body, lagHours);
  return hold("Open", PROGRAM_END_C, hours, `The core is still warmer than the thermometer: ${inDigits(hours)} h more behind the closed door, then unload below 60 °C.`);
}

/** Half a step of less than this much is lost in any mould. */
const STEP_K = 2;

/** How a controller that cannot go that slowly does it: down a step at its slowest rate, then wait. */
function slowSteps({ kiln }: Cooling, spanK: number, rate: number): string {
  const slowest = kiln?.minRateKPerH;
  if (slowest === undefined || rate >= slowest || !(spanK > 0)) return "";
  const steps = Math.ceil(spanK / STEP_K);
  const step = spanK / steps;
  const wait = step / rate - step / slowest;
  return `; the controller's slowest rate is ${inDigits(slowest)} K/h, so in ${steps} steps of ${inDigits(step)} K: down at ${inDigits(slowest)} K/h, then wait ${inDigits(wait)} h`;
}

function fall(loaded: LoadedKiln | undefined, fromC: number, toC: number, rate: number): number {
  return loaded === undefined ? (fromC - toC) / rate : coolingHours(loaded, fromC, toC, rate);
}
