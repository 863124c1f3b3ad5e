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
export const OWN_GLASS = "own";
export const YES = "yes";

/** How a field is called on the form, for problems; `unit` follows its numbers. */
export type FieldWords = { readonly label: string; readonly unit?: string };

export const FIELD_WORDS: Readonly<Partial<Record<CastingField, FieldWords>>> = {
  title: { label: "The title" },
  neededBy: { label: "The needed-by date" },
  glass: { label: "The glass" },
  "glass.name": { label: "The name of the glass" },
  "glass.densityKgM3": { label: "The density of the glass", unit: "kg/m³" },
  "glass.annealingPointC": { label: "The annealing point", unit: "°C" },
  "glass.strainPointC": { label: "The strain point", unit: "°C" },
  "glass.softeningPointC": { label: "The softening point", unit: "°C" },
  "glass.expansionSolidPerK": { label: "The expansion", unit: "millionths per K" },
  "piece.shape": { label: "The shape" },
  "piece.sizeMm.0": { label: "The first size", unit: "mm" },
  "piece.sizeMm.1": { label: "The second size", unit: "mm" },
  "piece.sizeMm.2": { label: "The third size", unit: "mm" },
  "piece.waxKg": { label: "The wax weight", unit: "kg" },
  "piece.waxDensityKgM3": { label: "The density of the wax", unit: "kg/m³" },
  "piece.thickestMm": { label: "The thickest part", unit: "mm" },
  cooling: { label: "The way it cools" },
  "mould.wallMm": { label: "The mould wall", unit: "mm" },
  "mould.plasterSilicaWater.0": { label: "The parts of plaster" },
  "mould.plasterSilicaWater.1": { label: "The parts of silica" },
  "mould.plasterSilicaWater.2": { label: "The parts of water" },
  "feeder.diameterMm": { label: "The feeder's diameter", unit: "mm" },
  "feeder.lengthMm": { label: "The feeder's length", unit: "mm" },
  "feeder.waxKg": { label: "The feeder's wax", unit: "kg" },
  stress: { label: "The stress level" },
  "stress.permanentMPa": { label: "The permanent stress", unit: "MPa" },
  "stress.passingMPa": { label: "The passing stress", unit: "MPa" },
  processC: { label: "The process temperature", unit: "°C" },
};

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
