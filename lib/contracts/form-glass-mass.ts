import { catalogueGlass } from "@/lib/domain/glass/catalogue";
import { suggestedWallMm } from "@/lib/domain/mould/suggested-wall";
import type { MeshBody } from "@/lib/domain/shape/mesh/mesh-body";
import { solidOf, volumeOf } from "@/lib/domain/shape/solid";
import { glassIdSchema } from "./casting-input";
import { type CastingField, type CastingForm, isFormShape, MESH, sizeFieldsOf } from "./casting-fields";
import { readNumber } from "./form-number";

/** Microcrystalline modelling wax; common practice, no source (0.92 to 0.94 kg/L are usual). */
const USUAL_WAX_KG_M3 = 930;
const USUAL_GLASS_KG_M3 = 2500;

/** The wall the form takes when none is typed; undefined while the size of the piece is not known. */
export function suggestedWall(form: CastingForm, mesh?: MeshBody): number | undefined {
  const kg = roughGlassKg(form, mesh);
  return kg === undefined ? undefined : suggestedWallMm(kg);
}

/** Mass of the piece from its wax, or else from its shape: enough to suggest a wall by. */
export function roughGlassKg(form: CastingForm, mesh?: MeshBody): number | undefined {
  const volumeM3 = waxVolume(form) ?? shapeVolume(form, mesh);
  return volumeM3 === undefined ? undefined : volumeM3 * glassDensity(form);
}

function glassDensity(form: CastingForm): number {
  const known = glassIdSchema.safeParse(form.glass);
  return known.success ? catalogueGlass(known.data).densityKgM3 : (positive(form, "glass.densityKgM3") ?? USUAL_GLASS_KG_M3);
}

function waxVolume(form: CastingForm): number | undefined {
  const kg = positive(form, "piece.waxKg");
  return kg === undefined ? undefined : kg / (positive(form, "piece.waxDensityKgM3") ?? USUAL_WAX_KG_M3);
}

function shapeVolume(form: CastingForm, mesh: MeshBody | undefined): number | undefined {
  const shape = form["piece.shape"];
  if (shape === MESH) return mesh?.volumeM3;
  if (!isFormShape(shape)) return undefined;
  const fields = sizeFieldsOf(shape);
  const sizes = fields.flatMap((field) => positive(form, field) ?? []);
  return sizes.length < fields.length ? undefined : volumeOf(solidOf(shape, sizes));
}

function positive(form: CastingForm, field: CastingField): number | undefined {
  const read = readNumber(field, form[field], { label: field });
  return read.ok && read.value !== undefined && read.value > 0 ? read.value : undefined;
}
