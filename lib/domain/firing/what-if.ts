import type { CastingInput, StressLevel } from "@/lib/domain/firing/casting-input";
import { INPUT_RANGES } from "@/lib/domain/firing/input-ranges";

/** The three figures that decide most of a firing's length. Undefined where the casting has none: a mesh's thickness is worked out, bare glass has no wall. */
export type WhatIf = { readonly thickestMm: number | undefined; readonly wallMm: number | undefined; readonly stress: StressLevel };

/** How they stand in a casting. */
export function whatIfOf({ piece, mould, stress }: CastingInput): WhatIf {
  return { thickestMm: piece.shape === "mesh" ? undefined : (piece.thickestMm ?? ownThickness(piece)), wallMm: mould?.wallMm, stress };
}

/** The casting with other figures; those that are as they were leave it as it was. */
export function withWhatIf(input: CastingInput, { thickestMm, wallMm, stress }: WhatIf): CastingInput {
  const now = whatIfOf(input);
  return {
    ...input,
    stress,
    ...(thickestMm === undefined || thickestMm === now.thickestMm ? {} : { piece: { ...input.piece, thickestMm } }),
    ...(wallMm === undefined || input.mould === undefined ? {} : { mould: { ...input.mould, wallMm } }),
  };
}

const LEAST_SHARE = 0.4;
const MOST_SHARE = 2;

/**
 * Between which thicknesses, mm, it is worth asking: from two fifths to twice the present one, within what is
 * planned at all; a piece cannot be thicker than it is long, only a slab is as thick as it is said to be.
 */
export function thicknessReach({ piece }: CastingInput, thickestMm: number): readonly [least: number, most: number] {
  const [least, most] = INPUT_RANGES["piece.thickestMm"];
  const longest = piece.shape === "slab" ? most : Math.max(...(piece.sizeMm ?? [most]));
  return [Math.max(least, Math.round(LEAST_SHARE * thickestMm)), Math.max(thickestMm, Math.floor(Math.min(most, longest, MOST_SHARE * thickestMm)))];
}

function ownThickness({ sizeMm }: CastingInput["piece"]): number | undefined {
  return sizeMm === undefined ? undefined : Math.min(...sizeMm);
}
