import type { Piece } from "@/lib/domain/firing/casting-input";
import { metres } from "@/lib/domain/units";
import type { MeshBody } from "./mesh/mesh-body";

/** The plain solids a piece is described by, in metres. A slab here has its side already settled. */
export type Solid =
  | { readonly shape: "slab"; readonly thicknessM: number; readonly sideM: number }
  | { readonly shape: "brick"; readonly lengthsM: readonly [width: number, depth: number, height: number] }
  | { readonly shape: "cylinder"; readonly diameterM: number; readonly heightM: number }
  | { readonly shape: "ball"; readonly diameterM: number }
  | { readonly shape: "mesh"; readonly body: MeshBody };

/** How many lengths each shape takes, in the order they are asked for. */
export const SIZE_WORDS = {
  slab: ["thickness"],
  brick: ["width", "depth", "height"],
  cylinder: ["diameter", "height"],
  ball: ["diameter"],
} as const satisfies Record<Exclude<Piece["shape"], "mesh">, readonly string[]>;

/** A slab of unknown side is taken as a square plate, six times as wide as it is thick. */
const SLAB_SIDE_RATIO = 6;

/**
 * The solid of a piece whose size has been checked. `glassVolumeM3`, when the wax was weighed, settles
 * the side of a slab; otherwise the slab is a square plate of six thicknesses.
 */
export function solidOf(shape: Exclude<Piece["shape"], "mesh">, sizeMm: readonly number[], glassVolumeM3?: number): Solid {
  const [a = 0, b = 0, c = 0] = sizeMm.map(metres);
  switch (shape) {
    case "slab":
      return { shape, thicknessM: a, sideM: glassVolumeM3 === undefined ? SLAB_SIDE_RATIO * a : Math.sqrt(glassVolumeM3 / a) };
    case "brick":
      return { shape, lengthsM: [a, b, c] };
    case "cylinder":
      return { shape, diameterM: a, heightM: b };
    case "ball":
      return { shape, diameterM: a };
  }
}

/** Width, depth and height of the box around a solid, as it stands. */
export function boxAround(solid: Solid): readonly [width: number, depth: number, height: number] {
  switch (solid.shape) {
    case "slab":
      return [solid.sideM, solid.sideM, solid.thicknessM];
    case "brick":
      return solid.lengthsM;
    case "cylinder":
      return [solid.diameterM, solid.diameterM, solid.heightM];
    case "ball":
      return [solid.diameterM, solid.diameterM, solid.diameterM];
    case "mesh":
      return solid.body.boxM;
  }
}

export function volumeOf(solid: Solid): number {
  if (solid.shape === "mesh") return solid.body.volumeM3;
  const [a, b, c] = boxAround(solid);
  if (solid.shape === "ball") return (Math.PI / 6) * a * b * c;
  return solid.shape === "cylinder" ? (Math.PI / 4) * a * b * c : a * b * c;
}

export function surfaceOf(solid: Solid): number {
  if (solid.shape === "mesh") return solid.body.surfaceM2;
  const [a, b, c] = boxAround(solid);
  if (solid.shape === "ball") return Math.PI * a * a;
  return solid.shape === "cylinder" ? Math.PI * a * c + (Math.PI / 2) * a * a : 2 * (a * b + b * c + c * a);
}

/**
 * Integral of mean curvature, m: the factor of t² in Steiner's formula for the volume within distance t
 * of a convex solid. Box π(a+b+c), ball 2πD, cylinder πH + π²D/2. A mesh is taken as the ball of its
 * surface, the least a convex body of that surface can have: thin walls around it are right, thick ones a
 * little light.
 */
export function curvatureOf(solid: Solid): number {
  if (solid.shape === "mesh") return 2 * Math.PI * Math.sqrt(solid.body.surfaceM2 / Math.PI);
  const [a, b, c] = boxAround(solid);
  if (solid.shape === "ball") return 2 * Math.PI * a;
  return solid.shape === "cylinder" ? Math.PI * c + (Math.PI ** 2 / 2) * a : Math.PI * (a + b + c);
}
