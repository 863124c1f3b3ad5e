import type { CastingInput, OwnGlass } from "@/lib/domain/firing/casting-input";
import type { Casting } from "./casting";
import { type CastingForm, EMPTY_FORM, OWN_GLASS, toMillionths, YES } from "./casting-fields";

/** The form of a stored casting: `readCasting(formOf(casting))` gives the same casting again. */
export function formOf({ title, input, neededBy }: Casting): CastingForm {
  return {
    ...EMPTY_FORM,
    title,
    neededBy: neededBy ?? "",
    ...(typeof input.glass === "string" ? { glass: input.glass } : ownGlassFields(input.glass)),
    ...pieceFields(input),
    cooling: input.cooling,
    ...mouldFields(input),
    ...feederFields(input),
    ...(input.stress === "careful"
      ? { stress: "careful" }
      : { stress: "own", "stress.permanentMPa": text(input.stress.permanentMPa), "stress.passingMPa": text(input.stress.passingMPa) }),
    processC: text(input.processC),
  };
}

function ownGlassFields(glass: OwnGlass): Partial<CastingForm> {
  const { name, densityKgM3, annealingPointC, strainPointC, softeningPointC, expansionSolidPerK, ...rest } = glass;
  return {
    glass: OWN_GLASS,
    "glass.name": name,
    "glass.densityKgM3": text(densityKgM3),
    "glass.annealingPointC": text(annealingPointC),
    "glass.strainPointC": text(strainPointC),
    "glass.softeningPointC": text(softeningPointC),
    "glass.expansionSolidPerK": expansionSolidPerK === undefined ? "" : text(toMillionths(expansionSolidPerK)),
    "glass.rest": Object.keys(rest).length === 0 ? "" : JSON.stringify(rest),
  };
}

function pieceFields({ piece }: CastingInput): Partial<CastingForm> {
  const [first, second, third] = piece.sizeMm ?? [];
  return {
    "piece.shape": piece.shape,
    "piece.sizeMm.0": text(first),
    "piece.sizeMm.1": text(second),
    "piece.sizeMm.2": text(third),
    "piece.meshId": piece.meshId ?? "",
    "piece.waxKg": text(piece.waxKg),
    "piece.waxDensityKgM3": text(piece.waxDensityKgM3),
    "piece.thickestMm": text(piece.thickestMm),
  };
}

function mouldFields({ mould }: CastingInput): Partial<CastingForm> {
  if (mould === undefined) return { mould: "" };
  const [plaster, silica, water] = mould.plasterSilicaWater;
  return {
    mould: YES,
    "mould.wallMm": text(mould.wallMm),
    "mould.plasterSilicaWater.0": text(plaster),
    "mould.plasterSilicaWater.1": text(silica),
    "mould.plasterSilicaWater.2": text(water),
    "mould.driedBeforeLoading": mould.driedBeforeLoading === true ? YES : "",
  };
}

function feederFields({ feeder }: CastingInput): Partial<CastingForm> {
  if (feeder === undefined) return { feeder: "" };
  return {
    feeder: YES,
    "feeder.diameterMm": text(feeder.diameterMm),
    "feeder.lengthMm": text(feeder.lengthMm),
    "feeder.waxKg": text(feeder.waxKg),
  };
}

function text(value: number | undefined): string {
  return value === undefined ? "" : String(value);
}
