import { INPUT_RANGES, type InputRange } from "@/lib/domain/firing/input-ranges";
import { OWN_GLASS_RANGES } from "@/lib/domain/glass/check-own-glass";
import { SIZE_WORDS } from "@/lib/domain/shape/solid";

/**
 * The fields of the casting form. Each is named by the dotted path of the input it becomes, so that a
 * problem with the input finds its field. Every field is text, as it was typed.
 */
export const CASTING_FIELDS = [
  "title",
  "neededBy",
  "glass",
  "glass.name",
  "glass.densityKgM3",
  "glass.annealingPointC",
  "glass.strainPointC",
  "glass.softeningPointC",
  "glass.expansionSolidPerK",
  "glass.rest",
  "piece.shape",
  "piece.sizeMm.0",
  "piece.sizeMm.1",
  "piece.sizeMm.2",
  "piece.meshId",
  "piece.waxKg",
  "piece.waxDensityKgM3",
  "piece.thickestMm",
  "cooling",
  "mould",
  "mould.wallMm",
  "mould.plasterSilicaWater.0",
  "mould.plasterSilicaWater.1",
  "mould.plasterSilicaWater.2",
  "mould.driedBeforeLoading",
  "feeder",
  "feeder.diameterMm",
  "feeder.lengthMm",
  "feeder.waxKg",
  "stress",
  "stress.permanentMPa",
  "stress.passingMPa",
  "processC",
] as const;

export type CastingField = (typeof CASTING_FIELDS)[number];
export type CastingForm = Readonly<Record<CastingField, string>>;

/** What a choice field may hold. */
export const MESH = "mesh";
export const OWN_GLASS = "own";
export const YES = "yes";

/** How each field is called on the form, for problems. */
const FIELD_WORDS: Readonly<Partial<Record<CastingField, string>>> = {
  title: "The title",
  neededBy: "The needed-by date",
  glass: "The glass",
  "glass.name": "The name of the glass",
  "glass.densityKgM3": "The density of the glass",
  "glass.annealingPointC": "The annealing point",
  "glass.strainPointC": "The strain point",
  "glass.softeningPointC": "The softening point",
  "glass.expansionSolidPerK": "The expansion",
  "piece.shape": "The shape",
  "piece.sizeMm.0": "The first size",
  "piece.sizeMm.1": "The second size",
  "piece.sizeMm.2": "The third size",
  "piece.meshId": "The mesh",
  "piece.waxKg": "The wax weight",
  "piece.waxDensityKgM3": "The density of the wax",
  "piece.thickestMm": "The thickest part",
  cooling: "The way it cools",
  "mould.wallMm": "The mould wall",
  "mould.plasterSilicaWater.0": "The parts of plaster",
  "mould.plasterSilicaWater.1": "The parts of silica",
  "mould.plasterSilicaWater.2": "The parts of water",
  "feeder.diameterMm": "The feeder's diameter",
  "feeder.lengthMm": "The feeder's length",
  "feeder.waxKg": "The feeder's wax",
  stress: "The stress level",
  "stress.permanentMPa": "The permanent stress",
  "stress.passingMPa": "The passing stress",
  processC: "The process temperature",
};

/** How a field is called on the form; the sizes by what they measure on that shape. */
export function labelOf(field: CastingField, shape: string): string {
  const size = sizeFieldsOf(shape).findIndex((one) => one === field);
  const word = isFormShape(shape) ? SIZE_WORDS[shape][size] : undefined;
  return word === undefined ? (FIELD_WORDS[field] ?? field) : `The ${word}`;
}

/** What a number field takes, e.g. "10 to 150 mm"; for an expansion in the millionths that the form speaks of. */
export function allowedIn(field: CastingField): string {
  const [least, most, unit] = rangeOf(field) ?? [];
  if (least === undefined || most === undefined || unit === undefined) return "such as 40 or 2.5";
  if (field === "glass.expansionSolidPerK") return `${toMillionths(least)} to ${toMillionths(most)} millionths per K`;
  return `${least} to ${most}${unit === "" ? "" : ` ${unit}`}`;
}

function rangeOf(field: CastingField): InputRange | undefined {
  if (field.startsWith("piece.sizeMm.")) return INPUT_RANGES["piece.sizeMm"];
  const ranges: Readonly<Partial<Record<string, InputRange>>> = INPUT_RANGES;
  const ofGlass: Readonly<Partial<Record<string, InputRange>>> = OWN_GLASS_RANGES;
  return ranges[field] ?? ofGlass[field.replace("glass.", "")];
}

/** 9.2e-6 as 9.2, without the tail that a multiplication leaves. */
export function toMillionths(perKelvin: number): number {
  return Number((perKelvin * 1e6).toPrecision(12));
}

/** The words for the sizes of each shape that can be described by sizes, in the order of `piece.sizeMm`. */
export type FormShape = keyof typeof SIZE_WORDS;

export function isFormShape(shape: string): shape is FormShape {
  return Object.hasOwn(SIZE_WORDS, shape);
}

export const SIZE_FIELDS = ["piece.sizeMm.0", "piece.sizeMm.1", "piece.sizeMm.2"] as const satisfies readonly CastingField[];

/** The size fields a shape uses; none for a shape the form does not know. */
export function sizeFieldsOf(shape: string): readonly (typeof SIZE_FIELDS)[number][] {
  return isFormShape(shape) ? SIZE_FIELDS.slice(0, SIZE_WORDS[shape].length) : [];
}

/** A form nobody has typed in yet. What is set here is what most castings use. */
export const EMPTY_FORM: CastingForm = {
  ...(Object.fromEntries(CASTING_FIELDS.map((field) => [field, ""])) as Record<CastingField, string>),
  "piece.shape": "brick",
  cooling: "all-round",
  mould: YES,
  "mould.plasterSilicaWater.0": "1",
  "mould.plasterSilicaWater.1": "1",
  "mould.plasterSilicaWater.2": "1",
  feeder: YES,
  "feeder.diameterMm": "30",
  "feeder.lengthMm": "60",
  stress: "careful",
};

/** Takes the fields out of a posted form; what else was posted is left aside. */
export function castingFormFrom(posted: { get(name: string): unknown }): CastingForm {
  const text = (field: CastingField) => {
    const value = posted.get(field);
    return typeof value === "string" ? value : "";
  };
  return Object.fromEntries(CASTING_FIELDS.map((field) => [field, text(field)])) as Record<CastingField, string>;
}
