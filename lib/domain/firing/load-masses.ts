import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { inDigits } from "@/lib/domain/firing/figures";
import type { Glass } from "@/lib/domain/glass/glass";
import { mixOf } from "@/lib/domain/mould/mix";
import { choosePot, type ChosenPot } from "@/lib/domain/mould/pot";
import { outsideOfMould, shellVolume } from "@/lib/domain/mould/shell";
import { refuse, type Problem, type Refusal } from "@/lib/domain/refusal";
import type { MeshBody } from "@/lib/domain/shape/mesh/mesh-body";
import { boxAround, solidOf, volumeOf, type Solid } from "@/lib/domain/shape/solid";
import { litres, metres, millimetres } from "@/lib/domain/units";

/** Microcrystalline wax, 920–940 kg/m³ (from memory); measure a filled wax. */
export const WAX_KG_M3 = 930;
/** Spare glass above the feeder against shrinkage, of the piece: 5–10 % (common practice). */
const HEAD_SHARE = 0.075;
/** Between the lip of the mould and the pot on its props, mm (common practice). */
const PROP_GAP_MM = 40;
/** A size and a weight that differ by more than this were not measured in the same units. */
const MIX_UP = 3;
const WIDEST_SLAB_MM = 3000;

export type LoadMasses = {
  readonly solid: Solid;
  readonly volumeM3: number;
  readonly waxKg: number;
  readonly glass: CastingPlan["glass"];
  readonly pot: CastingPlan["pot"];
  readonly mould: CastingPlan["mould"];
  readonly loadMm: CastingPlan["loadMm"];
  readonly shelfKg: number;
};

/** Size against weight: further apart than threefold in volume means that somebody mixed up units. */
export function mixedUpUnits({ piece }: CastingInput, mesh?: MeshBody): Problem | undefined {
  if (piece.waxKg === undefined) return undefined;
  const byWax = piece.waxKg / (piece.waxDensityKgM3 ?? WAX_KG_M3);
  if (piece.shape === "slab") return narrowSlab(piece.waxKg, piece.sizeMm ?? [], byWax);
  const bySize = volumeOf(pieceSolid(piece, mesh));
  const ratio = byWax / bySize;
  if (ratio <= MIX_UP && ratio >= 1 / MIX_UP) return undefined;
  const field = piece.shape === "mesh" ? "piece.file" : "piece.sizeMm";
  return {
    code: "units-mixed-up", field, value: piece.sizeMm ?? piece.file, allowed: "within three times the volume of the wax",
    message: `${field} makes ${inDigits(litres(bySize))} litres, but ${piece.waxKg} kg of wax is ${inDigits(litres(byWax))} litres. Were the sizes given in inches or centimetres, or the wax in grams or pounds? Sizes are in mm, wax in kg.`,
  };
}

/** A slab is as wide as its wax makes it: narrower than it is thick, or wider than any kiln, it is none. */
function narrowSlab(waxKg: number, sizeMm: readonly number[], waxM3: number): Problem | undefined {
  const [thickMm = 0] = sizeMm;
  const sideMm = Math.round(millimetres(Math.sqrt(waxM3 / metres(thickMm))));
  if (sideMm >= thickMm && sideMm <= WIDEST_SLAB_MM) return undefined;
  return {
    code: "units-mixed-up", field: "piece.waxKg", value: waxKg, allowed: `a wax that makes the slab ${thickMm} to ${WIDEST_SLAB_MM} mm wide`,
    message: `piece.waxKg is ${waxKg} kg, which makes a slab of ${thickMm} mm about ${sideMm} mm wide; it must be ${thickMm} to ${WIDEST_SLAB_MM} mm wide. Sizes are in mm, wax in kg: were inches or pounds meant?`,
  };
}

function pieceSolid(piece: CastingInput["piece"], mesh: MeshBody | undefined, glassVolumeM3?: number): Solid {
  if (piece.shape !== "mesh") return solidOf(piece.shape, piece.sizeMm ?? [], glassVolumeM3);
  if (mesh === undefined) throw new Error("a mesh was planned without its body");
  return { shape: "mesh", body: mesh };
}

/** A refusal where a mesh piece comes without its body, for what is worked out beside its plan. */
export function meshNotRead({ piece }: CastingInput, mesh: MeshBody | undefined): Refusal | undefined {
  if (piece.shape !== "mesh" || mesh !== undefined) return undefined;
  return refuse({ code: "mesh-not-read", field: "piece.file", value: piece.file, message: "The shape of this mesh is not at hand here, so this cannot be worked out from it." });
}

/** The solid a checked casting is described by; its wax, when weighed, settles the side of a slab. */
export function solidOfCasting({ piece }: CastingInput, mesh?: MeshBody): Solid {
  return pieceSolid(piece, mesh, piece.waxKg === undefined ? undefined : piece.waxKg / (piece.waxDensityKgM3 ?? WAX_KG_M3));
}

/** All masses and outside sizes of one casting whose input has been checked; `mesh` is the body of a mesh piece. */
export function loadMasses(input: CastingInput, glass: Glass, mesh?: MeshBody): LoadMasses {
  const { piece, feeder, mould } = input;
  const waxDensity = piece.waxDensityKgM3 ?? WAX_KG_M3;
  const byWax = piece.waxKg === undefined ? undefined : piece.waxKg / waxDensity;
  const solid = solidOfCasting(input, mesh);
  const volumeM3 = byWax ?? volumeOf(solid);
  const channel = feeder === undefined ? undefined : { diameterM: metres(feeder.diameterMm), lengthM: metres(feeder.lengthMm) };
  const feederM3 = channel === undefined ? 0 : (feeder?.waxKg === undefined ? (Math.PI / 4) * channel.diameterM ** 2 * channel.lengthM : feeder.waxKg / waxDensity);
  const pieceKg = volumeM3 * glass.densityKgM3;
  const feederKg = feederM3 * glass.densityKgM3;
  const headKg = mould === undefined ? 0 : HEAD_SHARE * pieceKg;
  const chosen = mould === undefined ? undefined : choosePot(pieceKg + feederKg + headKg, glass.densityKgM3);
  const residueKg = chosen?.residueKg ?? 0;
  const chargeKg = pieceKg + feederKg + headKg + residueKg;
  const made = mouldOf(input, solid, channel);
  const potKg = chosen?.pot.kg ?? 0;
  return {
    solid,
    volumeM3,
    waxKg: (volumeM3 + feederM3) * waxDensity,
    glass: { name: glass.name, pieceKg, feederKg, headKg, residueKg, chargeKg },
    pot: potFigures(chosen),
    mould: made,
    loadMm: loadBox(made, solid, chosen),
    shelfKg: Math.max((mould?.driedBeforeLoading === true ? made.dryKg : made.wetKg) + potKg + chargeKg, made.firedKg + potKg + chargeKg),
  };
}

function mouldOf({ mould }: CastingInput, solid: Solid, channel: { diameterM: number; lengthM: number } | undefined): CastingPlan["mould"] {
  if (mould === undefined) {
    const [w, d, h] = boxAround(solid);
    return { wetKg: 0, dryKg: 0, firedKg: 0, powderKg: 0, plasterKg: 0, silicaKg: 0, waterKg: 0, freeWaterKg: 0, boundWaterKg: 0, outsideMm: [millimetres(w), millimetres(d), millimetres(h)] };
  }
  const mix = mixOf(mould.plasterSilicaWater);
  const volumeL = litres(shellVolume(solid, metres(mould.wallMm), channel));
  const [w, d, h] = outsideOfMould(solid, metres(mould.wallMm), channel);
  const wetKg = mix.slurryKgPerL * volumeL;
  const freeWaterKg = mix.freeWaterKgPerL * volumeL;
  const boundWaterKg = mix.boundWaterKgPerL * volumeL;
  return {
    wetKg,
    dryKg: wetKg - freeWaterKg,
    firedKg: wetKg - freeWaterKg - boundWaterKg,
    powderKg: mix.powderKgPerL * volumeL,
    plasterKg: mix.plasterKgPerL * volumeL,
    silicaKg: mix.silicaKgPerL * volumeL,
    waterKg: mix.waterKgPerL * volumeL,
    freeWaterKg,
    boundWaterKg,
    outsideMm: [millimetres(w), millimetres(d), millimetres(h)],
  };
}

function potFigures(chosen: ChosenPot | undefined): CastingPlan["pot"] {
  if (chosen === undefined) return { litres: 0, heightMm: 0, diameterMm: 0, kg: 0 };
  const { pot } = chosen;
  return { litres: pot.litres, heightMm: millimetres(pot.heightM), diameterMm: millimetres(pot.topM), kg: pot.kg };
}

/** Mould, prop gap and pot, one above the other. */
function loadBox(mould: CastingPlan["mould"], solid: Solid, chosen: ChosenPot | undefined): CastingPlan["loadMm"] {
  const [width, depth, height] = chosen === undefined ? boxAround(solid).map(millimetres) as [number, number, number] : mould.outsideMm;
  if (chosen === undefined) return { width, depth, height };
  const pot = millimetres(chosen.pot.topM);
  return { width: Math.max(width, pot), depth: Math.max(depth, pot), height: height + PROP_GAP_MM + millimetres(chosen.pot.heightM) };
}
