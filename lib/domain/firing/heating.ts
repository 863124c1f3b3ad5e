import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { Stage, StageName } from "@/lib/domain/firing/casting-plan";
import { hoursInWords, inDigits } from "@/lib/domain/firing/figures";
import type { LoadMasses } from "@/lib/domain/firing/load-masses";
import { climbRate } from "@/lib/domain/firing/loaded-kiln";
import { hold, ramp } from "@/lib/domain/firing/segment";
import type { LoadedKiln } from "@/lib/domain/heat/kiln-heat";
import { WALL_DIFFERENCE_K, wallRateKPerH } from "@/lib/domain/heat/mould-heat";
import { boundWaterHours } from "@/lib/domain/heat/wet-mould";
import { mixOf } from "@/lib/domain/mould/mix";
import { HEATING_TENSION_MPA } from "@/lib/domain/stress/stress-level";
import { fastestWarming, type WarmingTask } from "@/lib/domain/stress/warming";
import { keepLast } from "@/lib/domain/numeric/keep-last";
import { metres, ROOM_C, SECONDS_PER_HOUR } from "@/lib/domain/units";

/** Free water is held below boiling, bound water leaves up to 180 °C (published drying practice: 95–107 and 177 °C). */
const FREE_WATER_C = 95;
const BOUND_WATER_C = 180;
/** Hours at 95 °C for a wet wall of 40 mm; grows with the square of the wall. Common practice: 6 h and more for small moulds. */
const DRY_HOURS_AT_40_MM = 12;
const LEAST_DRY_HOURS = 6;
const LEAST_BOUND_HOURS = 2;
/** Drying that was done in air leaves a check of the core. Common practice, no source. */
const DRIED_HOURS = 2;
/** To boil off water: 2.6 MJ/kg with the heat of the vapour; a third of the kiln's power goes into it while it holds (common practice). */
const WATER_J_PER_KG = 2.6e6;
const DRY_POWER_SHARE = 1 / 3;
/** Plaster shrinks between 260 and 450 °C, cristobalite steps at 220–270 °C: three hours and more (published mould practice). */
const PLASTER_TO_C = 450;
const PLASTER_RATE = 60;
/** Quartz grows by 0.45 % at 573 °C: no more than 50 K/h through it (quartz inversion, published). */
const QUARTZ_TO_C = 650;
const QUARTZ_RATE = 50;
const LAST_RATE = 100;
const STARTING_RATE = 30;

/** Hours at 95 °C until a wet wall of this thickness is dry, as far as the wall and not the kiln's power sets them. */
export function wallDryHours(wallMm: number): number {
  return Math.max(LEAST_DRY_HOURS, DRY_HOURS_AT_40_MM * (wallMm / 40) ** 2);
}

type Heating = { readonly input: CastingInput; readonly load: LoadMasses; readonly kiln: LoadedKiln | undefined; readonly processC: number };

/** Dry and Climb of a mould: water out, then through the steps of plaster and silica to process temperature. */
export function heatMould(heating: Heating, wallMm: number): Stage[] {
  const { input, load, kiln, processC } = heating;
  const wallRate = wallRateKPerH(metres(wallMm));
  const dried = input.mould?.driedBeforeLoading === true;
  const freeHours = dried ? DRIED_HOURS : Math.max(wallDryHours(wallMm), boilHours(kiln, load.mould.freeWaterKg));
  const boundKgPerM3 = 1000 * mixOf(input.mould?.plasterSilicaWater ?? [1, 1, 1]).boundWaterKgPerL;
  const inward = boundWaterHours({ wallM: metres(wallMm), boundKgPerM3, startC: FREE_WATER_C, rateKPerH: Math.min(STARTING_RATE, wallRate), holdC: BOUND_WATER_C });
  const boundHours = Math.max(LEAST_BOUND_HOURS, inward, boilHours(kiln, load.mould.boundWaterKg));
  const up = (stage: StageName, from: number, to: number, wished: number, why: string) => climb(kiln, stage, from, to, Math.min(wished, wallRate), why);
  return [
    up("Dry", ROOM_C, FREE_WATER_C, STARTING_RATE, `No more than ${STARTING_RATE} K/h and not above ${FREE_WATER_C} °C, below boiling, so that no steam cracks the ${wallMm} mm wall.`),
    hold("Dry", FREE_WATER_C, freeHours, dried
      ? `The mould comes dried; ${inDigits(freeHours)} h make sure that its core is.`
      : `${inDigits(load.mould.freeWaterKg)} kg of free water leave through a ${wallMm} mm wall in about ${hoursInWords(freeHours)}; go on only when the vent shows no steam.`),
    up("Dry", FREE_WATER_C, BOUND_WATER_C, STARTING_RATE, `Plaster gives up its bound water from about 100 to ${BOUND_WATER_C} °C: no more than ${STARTING_RATE} K/h.`),
    hold("Dry", BOUND_WATER_C, boundHours, `${inDigits(load.mould.boundWaterKg)} kg of bound water leave the plaster in about ${hoursInWords(boundHours)}: so long until the heat that drives them out has gone through the wall.`),
    up("Climb", BOUND_WATER_C, PLASTER_TO_C, PLASTER_RATE, `Plaster shrinks and any cristobalite steps here: no more than ${PLASTER_RATE} K/h.`),
    up("Climb", PLASTER_TO_C, QUARTZ_TO_C, QUARTZ_RATE, `Quartz grows by 0.45 % at 573 °C: no more than ${QUARTZ_RATE} K/h.`),
    up("Climb", QUARTZ_TO_C, processC, LAST_RATE, `On to ${processC} °C at no more than ${LAST_RATE} K/h, nor faster than keeps ${WALL_DIFFERENCE_K} K across a ${wallMm} mm wall.`),
  ].filter((stage) => stage.hours > 0);
}

/** Once it flows, nothing in glass can crack (common practice: as fast as kilns go). */
const SOFT_RATE = 150;
/** Rates nearer to each other than this are one. */
const HARDLY = 0.97;
/** As for the way down: planned for many kilns and at every keystroke. */
const KEPT = 256;

/** The two ramps of bare glass until it is soft to its core, as long as nothing but the glass sets them. */
const warmingFor = keepLast(fastestWarming, KEPT);

/**
 * Climb of bare glass, kept within what cold glass stands. It is taken to have cooled once as slowly as it will
 * now, at `cooledKPerH` through its transition: its structure is then the most settled, and the transition the
 * hardest on its core. Ramps that hardly differ are one segment.
 */
export function heatBareGlass({ kiln, processC }: Heating, bare: Pick<WarmingTask, "glass" | "body" | "cooledKPerH">): Stage[] {
  const { cold, through } = warmingFor({ ...bare, toC: processC, limitMPa: HEATING_TENSION_MPA, fastestKPerH: SOFT_RATE });
  const pulled = "Cold glass is in tension inside while it is heated, and again while its surface softens and swells before the core does: ";
  const kept = `keeps that within ${HEATING_TENSION_MPA} MPa`;
  const up = through.rateKPerH > HARDLY * cold.rateKPerH
    ? [climb(kiln, "Climb", ROOM_C, through.toC, through.rateKPerH, `${pulled}${inDigits(through.rateKPerH)} K/h ${kept} until all of it is soft.`)]
    : [
        climb(kiln, "Climb", ROOM_C, cold.toC, cold.rateKPerH, `Cold glass is in tension inside while it is heated: ${inDigits(cold.rateKPerH)} K/h ${kept} up to the strain point.`),
        climb(kiln, "Climb", cold.toC, through.toC, through.rateKPerH, `The surface softens and swells before the core does, which pulls the core: ${inDigits(through.rateKPerH)} K/h ${kept} until all of it is soft.`),
      ];
  return [
    ...up,
    climb(kiln, "Climb", through.toC, processC, SOFT_RATE, `Soft glass holds no tension: ${SOFT_RATE} K/h on to ${processC} °C.`),
  ].filter((stage) => stage.hours > 0);
}

function climb(kiln: LoadedKiln | undefined, stage: StageName, fromC: number, toC: number, wished: number, why: string): Stage {
  const { rateKPerH, limitedByPower } = climbRate(kiln, wished, toC);
  const slower = limitedByPower ? ` The kiln's power allows ${inDigits(rateKPerH)} K/h at ${toC} °C.` : "";
  return ramp(stage, fromC, toC, rateKPerH, `${why}${slower}`);
}

function boilHours(kiln: LoadedKiln | undefined, waterKg: number): number {
  if (kiln === undefined) return 0;
  return (waterKg * WATER_J_PER_KG) / (kiln.powerW * DRY_POWER_SHARE) / SECONDS_PER_HOUR;
}
