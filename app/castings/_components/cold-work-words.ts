import { numberText } from "@/app/_components/number-text";
import type { ColdStep, ColdWork, ColdWorkPlan, HourRange } from "@/lib/domain/coldworking/cold-work";
import type { Worked } from "@/lib/domain/coldworking/faces";
import type { CastSurface } from "@/lib/domain/coldworking/sequence";

export const SURFACE_CHOICES: readonly { readonly value: CastSurface; readonly label: string }[] = [
  { value: "smooth", label: "smooth, skin only: 0.3 mm off" },
  { value: "usual", label: "usual, with skin and flash: 1 mm off" },
  { value: "rough", label: "rough, fins or uneven: 3 mm off" },
];

export const WORKED_CHOICES: readonly { readonly value: Worked; readonly label: string }[] = [
  { value: "by-shape", label: "by its shape" },
  { value: "flat", label: "all on flat faces" },
  { value: "round", label: "all round, by hand or belt" },
];

/** "All of its surface: about 99 h, anywhere from 33 to 296 h. Every worked face loses about 2.0 mm." */
export function coldWorkLead({ hours, offMm }: ColdWorkPlan): string {
  return `All of its surface: about ${digits(hours.about)} h, anywhere from ${hoursText(hours)}. Every worked face loses about ${numberText(offMm, 1)} mm.`;
}

/** "Flat faces, 1300 cm², loose or bonded grain (F)". */
export function workTitle({ work, areaM2 }: Pick<ColdWork, "work" | "areaM2">): string {
  const area = `${numberText(areaM2 * 1e4)} cm²`;
  return work === "flat" ? `Flat faces, ${area}, loose or bonded grain (F)` : `Round faces, ${area}, coated abrasive (P)`;
}

export function hoursText({ from, to }: HourRange): string {
  return `${digits(from)} to ${digits(to)} h`;
}

export function removeText({ removeUm }: Pick<ColdStep, "removeUm">): string {
  return removeUm >= 100 ? `${numberText(removeUm / 1000, 2)} mm` : `${numberText(removeUm)} µm`;
}

export function grainText({ name, medianUm }: Pick<ColdStep, "name" | "medianUm">): string {
  if (name === "polish") return "cerium oxide on felt";
  if (name === "pre-polish") return `fine pumice or resin bond, about ${numberText(medianUm ?? 0)} µm`;
  return `${numberText(medianUm ?? 0, (medianUm ?? 0) < 100 ? 1 : 0)} µm median`;
}

export const RULE_WORDS =
  "Each grit takes off three median sizes of the one before, the depth that one has damaged; the next is no finer than its 2.5th part. Draw over the face with a pen before each grit: go on when every mark is gone.";

export const HOURS_WORDS =
  "Hours lie between a third and three times the middle of two published accounts: they grow with the area and fall with pressure and speed. Your own times are worth more. Grit sizes: FEPA, ISO 8486 (F) and ISO 6344 (P), medians.";

function digits(hours: number): string {
  return numberText(hours, hours < 10 ? 1 : 0);
}
