import type { KilnForPlan } from "@/lib/domain/firing/casting-input";
import type { Stage } from "@/lib/domain/firing/casting-plan";
import { hoursInWords, inDigits } from "@/lib/domain/firing/figures";
import { hold, ramp, rampIn } from "@/lib/domain/firing/segment";
import { WALL_DIFFERENCE_K } from "@/lib/domain/heat/mould-heat";
import type { Problem } from "@/lib/domain/refusal";
import { coolingHours, naturalLimitC, type LoadedKiln } from "@/lib/domain/heat/kiln-heat";
import type { CoolingBody } from "@/lib/domain/shape/cooling-body";
import type { SlowCool } from "@/lib/domain/stress/quasi-steady";
import type { StressLimits } from "@/lib/domain/stress/stress-level";
import { millimetres } from "@/lib/domain/units";

/** Faster than this breaks plaster moulds on the way down (published experience above 800 °C). */
const DROP_RATE = 150;
/** Thick-slab tables of two makers soak 4 h for every 25 mm. */
const SOAK_HOURS_PER_MM = 4 / 25;
/** The mould's lag, once to arrive and twice to level out (common practice). */
const LAGS_IN_SOAK = 3;
/** The program ends here; the core, a little warmer, may then be opened to the room. */
export const PROGRAM_END_C = 40;
const LEAST_OPEN_HOURS = 1;

export type Cooling = {
  readonly processC: number;
  readonly body: CoolingBody;
  readonly slow: SlowCool;
  readonly limits: StressLimits;
  readonly lagHours: number;
  readonly loaded: LoadedKiln | undefined;
  readonly kiln: KilnForPlan | undefined;
};

/** A stage, and how many segments it takes in the controller: two for every step of a rate too slow for it. */
export type Programmed = Stage & { readonly segments: number };

/** Drop, Soak, Slow cool, Run-down and Open. */
export function coolingStages(cooling: Cooling): Programmed[] {
  const { processC, slow } = cooling;
  const soakC = Math.round(slow.soakC);
  return [
    ...drop(cooling, processC, soakC).map((stage) => ({ ...stage, segments: 1 })),
    { ...soak(cooling, soakC), segments: 1 },
    ...slowCoolStages(cooling, soakC),
    { ...open(cooling), segments: 0 },
  ];
}

function drop({ loaded }: Cooling, fromC: number, toC: number): Stage[] {
  if (!(fromC > toC)) return [];
  const hours = fall(loaded, fromC, toC, DROP_RATE);
  const pace = loaded === undefined ? `at no more than ${DROP_RATE} K/h` : `as fast as the closed kiln loses heat, about ${inDigits((fromC - toC) / hours)} K/h`;
  return [rampIn("Drop", fromC, toC, hours, `From ${fromC} to ${toC} °C ${pace}: nothing is frozen in yet, and the hot hours cost the mould.`)];
}

function soak({ body, lagHours }: Cooling, soakC: number): Stage {
  const thicknessMm = millimetres(body.slabEquivalentM);
  const own = SOAK_HOURS_PER_MM * thicknessMm;
  const hours = own + LAGS_IN_SOAK * lagHours;
  const behind = lagHours > 0 ? `, and ${inDigits(LAGS_IN_SOAK * lagHours)} h because the mould lets the glass follow ${inDigits(lagHours)} h late` : "";
  return hold("Soak", soakC, hours, `The core must be as warm as the surface and free of stress: ${inDigits(own)} h for the thickness of a ${inDigits(thicknessMm)} mm slab (4 h for 25 mm)${behind}.`);
}

/** The kiln reads low by rate × lag while the glass is still in range, so each stage ends that much lower. */
function slowCoolStages(cooling: Cooling, soakC: number): Programmed[] {
  const { slow, limits, lagHours } = cooling;
  const { freezing, settling, rundownRateKPerH } = slow;
  const freezeTo = freezing.toC - lagHours * freezing.rateKPerH;
  const settleTo = settling.toC - lagHours * settling.rateKPerH;
  return [
    ...falling(cooling, "Slow cool", soakC, freezeTo, freezing.rateKPerH, `Stress freezes in here: ${inDigits(freezing.rateKPerH)} K/h leaves no more than ${inDigits(limits.permanentMPa)} MPa in the core${follows(cooling, freezing.rateKPerH)}${slowSteps(cooling, soakC - freezeTo, freezing.rateKPerH)}.`),
    ...falling(cooling, "Slow cool", freezeTo, settleTo, settling.rateKPerH, `A last part may still settle: ${inDigits(settling.rateKPerH)} K/h over ${inDigits(freezeTo - settleTo)} K${slowSteps(cooling, freezeTo - settleTo, settling.rateKPerH)}.`),
    ...falling(cooling, "Run-down", settleTo, PROGRAM_END_C, rundownRateKPerH, `Nothing freezes in any more; ${inDigits(rundownRateKPerH)} K/h keeps the passing tension within ${inDigits(limits.passingMPa)} MPa${follows(cooling, rundownRateKPerH)}${slowSteps(cooling, settleTo - PROGRAM_END_C, rundownRateKPerH)}.`),
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

function open({ lagHours, body }: Cooling): Stage {
  const core = (2 * millimetres(body.slabEquivalentM)) / 50;
  const hours = Math.max(LEAST_OPEN_HOURS, lagHours + core);
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
