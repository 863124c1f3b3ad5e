import { boxAround, surfaceOf, type Solid } from "@/lib/domain/shape/solid";

/** Flat faces go onto a lap with loose grit, round ones are worked by hand or belt with coated abrasives. */
export type Faces = { readonly flatM2: number; readonly roundM2: number };

/** A figure is described by a plain solid but worked as neither; then somebody says how. */
export type Worked = "by-shape" | "flat" | "round";

/** The surface of the plain solid a piece is described by, by how it is worked. A mesh counts as round. */
export function facesOf(solid: Solid, worked: Worked = "by-shape"): Faces {
  const all = surfaceOf(solid);
  if (worked !== "by-shape") return worked === "flat" ? { flatM2: all, roundM2: 0 } : { flatM2: 0, roundM2: all };
  if (solid.shape === "brick" || solid.shape === "slab") return { flatM2: all, roundM2: 0 };
  if (solid.shape !== "cylinder") return { flatM2: 0, roundM2: all };
  const [diameterM] = boxAround(solid);
  const ends = (Math.PI / 2) * diameterM ** 2;
  return { flatM2: ends, roundM2: all - ends };
}
