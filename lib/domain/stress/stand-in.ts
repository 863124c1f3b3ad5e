import type { CoolingBody } from "@/lib/domain/shape/cooling-body";
import type { HistoryRow, Profile } from "./simulate";

/**
 * Which slab stands for a body: `halfM`, half the thickness of the slab with the same core over surface, and
 * what the body's stress in the middle and at the surface is of that slab's. 1 and 1 for a slab itself.
 */
export type StandIn = { readonly halfM: number; readonly centre: number; readonly surface: number };

/** Heat as in the slab of equal core over surface, stress in proportion to the exact steady one (`CoolingBody`). */
export function standInFor({ slabEquivalentM, centreM2, surfaceM2 }: CoolingBody): StandIn {
  return { halfM: slabEquivalentM / 2, centre: centreM2 / (slabEquivalentM ** 2 / 24), surface: surfaceM2 / (slabEquivalentM ** 2 / 12) };
}

/** A stress of the stand-in in the body's own terms; `x` is where in the slab, 0 in the middle and 1 at the surface. */
function inBody({ centre, surface }: StandIn, x: number, slabMPa: number): number {
  return (centre + (surface - centre) * x ** 2) * slabMPa;
}

export type BodyStress = { readonly centreMPa: number; readonly surfaceMPa: number; readonly MPa: readonly number[]; readonly tensionMPa: number };

/** A moment of the simulated stand-in as the body's stress: in the middle, at the surface, at each depth of the profile, and the largest tension of all. */
export function stressInBody(as: StandIn, row: Pick<HistoryRow, "centreMPa" | "surfaceMPa">, { atM, MPa }: Pick<Profile, "atM" | "MPa">): BodyStress {
  const centreMPa = as.centre * row.centreMPa;
  const surfaceMPa = as.surface * row.surfaceMPa;
  const inside = MPa.map((stress, i) => inBody(as, (atM[i] ?? 0) / as.halfM, stress));
  return { centreMPa, surfaceMPa, MPa: inside, tensionMPa: Math.max(centreMPa, surfaceMPa, ...inside) };
}
