import type { Solid } from "@/lib/domain/shape/solid";
import { facesOf, type Worked } from "./faces";
import { gritName, type GritScale } from "./grits";
import { DAMAGE_SIZES, grains, gritSteps, type CastSurface, type GritStep } from "./sequence";

export type HourRange = { readonly from: number; readonly about: number; readonly to: number };

export type ColdStep = {
  /** "F80", "pre-polish", "polish". */
  readonly name: string;
  /** Median grain, µm; null where the polish is no graded grit. */
  readonly medianUm: number | null;
  /** To take off every worked face before going on, µm. */
  readonly removeUm: number;
  readonly hours: HourRange;
};

/** One way of working a part of the surface, from the cast skin to the polish. */
export type ColdWork = {
  readonly work: "flat" | "round";
  readonly scale: GritScale;
  readonly areaM2: number;
  readonly steps: readonly ColdStep[];
  readonly hours: HourRange;
};

export type ColdWorkPlan = {
  readonly works: readonly ColdWork[];
  readonly hours: HourRange;
  /** What every worked face loses in all, mm: leave it on the model. */
  readonly offMm: number;
};

/**
 * Grains' depths an hour on 100 cm² of flat face, by hand on a flat-bed disc: 60 to 400 took about 6 h
 * a face (published account; face size not given, taken as 100 cm²), which are about 27 depths.
 */
const DEPTHS_PER_H = 27 / 6;
const ACCOUNT_FACE_M2 = 0.01;
/** Round faces touch the tool on a line (common practice, no source). */
const ROUND_FACTOR = 1.5;
/** Pre-polish and polish take a little longer than a grit each: 20 to 25 h a face in all, of which 14 on four grits (published account of a vibrating lap). */
const POLISH_SHARE = 1.2;
/**
 * From a third to three times, wide enough that both accounts lie within if their faces were 100 cm²
 * (worked out; neither gives its face). Hours grow with the area and fall with pressure and speed
 * (Preston's law, from memory); a workshop's own times are worth more.
 */
export const HOURS_FACTOR = 3;

/** Fine pumice or a resin-bonded pre-polish of about 7 to 10 µm (common practice, no source). */
const PREPOLISH_UM = 8;

/** The whole work on a casting after the mould is off, for all of its surface. */
export function coldWorkPlan(solid: Solid, surface: CastSurface = "usual", worked: Worked = "by-shape"): ColdWorkPlan {
  const { flatM2, roundM2 } = facesOf(solid, worked);
  const works = [
    ...(flatM2 > 0 ? [workOf("flat", "F", flatM2, surface)] : []),
    ...(roundM2 > 0 ? [workOf("round", "P", roundM2, surface)] : []),
  ];
  const off = works.map(({ steps }) => steps.reduce((sum, { removeUm }) => sum + removeUm, 0) / 1000);
  return { works, hours: sumOf(works.map(({ hours }) => hours)), offMm: Math.max(0, ...off) };
}

function workOf(work: ColdWork["work"], scale: GritScale, areaM2: number, surface: CastSurface): ColdWork {
  const perDepth = (areaM2 / ACCOUNT_FACE_M2 / DEPTHS_PER_H) * (work === "round" ? ROUND_FACTOR : 1);
  const ground = gritSteps(scale, surface);
  const steps = [...ground.map((step) => gritStep(step, perDepth)), ...polishSteps(ground, perDepth)];
  return { work, scale, areaM2, steps, hours: sumOf(steps.map(({ hours }) => hours)) };
}

function gritStep(step: GritStep, perDepth: number): ColdStep {
  return { name: gritName(step.grit), medianUm: step.grit.medianUm, removeUm: step.removeUm, hours: rangeOf(grains(step) * perDepth) };
}

function polishSteps(ground: readonly GritStep[], perDepth: number): readonly ColdStep[] {
  const mean = ground.reduce((sum, step) => sum + grains(step), 0) / ground.length;
  const hours = rangeOf(POLISH_SHARE * mean * perDepth);
  const last = ground.at(-1)?.grit.medianUm ?? 0;
  return [
    { name: "pre-polish", medianUm: PREPOLISH_UM, removeUm: DAMAGE_SIZES * last, hours },
    { name: "polish", medianUm: null, removeUm: DAMAGE_SIZES * PREPOLISH_UM, hours },
  ];
}

function rangeOf(about: number): HourRange {
  return { from: about / HOURS_FACTOR, about, to: about * HOURS_FACTOR };
}

function sumOf(ranges: readonly HourRange[]): HourRange {
  return ranges.reduce((sum, { from, about, to }) => ({ from: sum.from + from, about: sum.about + about, to: sum.to + to }), { from: 0, about: 0, to: 0 });
}
