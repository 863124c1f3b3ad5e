import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { LoadMasses } from "@/lib/domain/firing/load-masses";
import type { Glass } from "@/lib/domain/glass/glass";
import { fixedPoints } from "@/lib/domain/glass/viscosity";
import { heatCapacity } from "@/lib/domain/heat/glass-heat";
import { lagHours } from "@/lib/domain/heat/mould-heat";
import { coolingBody, type CoolingBody } from "@/lib/domain/shape/cooling-body";
import { surfaceOf, volumeOf } from "@/lib/domain/shape/solid";
import { metres } from "@/lib/domain/units";

/** The body that a checked casting's cooling is worked out for. */
export function bodyOfCasting({ piece, cooling }: CastingInput, { solid }: Pick<LoadMasses, "solid">): CoolingBody {
  return coolingBody(solid, cooling, piece.thickestMm === undefined ? undefined : metres(piece.thickestMm));
}

/** Hours by which the glass follows the kiln through its mould; 0 for bare glass. */
export function lagOfCasting({ mould }: CastingInput, { solid }: Pick<LoadMasses, "solid">, glass: Glass): number {
  return mould === undefined ? 0 : lagHours(metres(mould.wallMm), glassHeatJPerM3K(glass), volumeOf(solid) / surfaceOf(solid));
}

/** Heat capacity by volume, ρc, where the glass freezes. */
export function glassHeatJPerM3K(glass: Glass): number {
  return glass.densityKgM3 * heatCapacity(glass, fixedPoints(glass.viscosity).strainC, "freezing");
}
