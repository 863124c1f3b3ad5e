import type { Cooling } from "@/lib/domain/firing/casting-input";
import { ballConduction, brickConduction, cylinderConduction, slabConduction } from "./conduction";
import type { Conduction } from "./conduction";
import type { MeshBody } from "./mesh/mesh-body";
import { boxAround } from "./solid";
import type { Solid } from "./solid";

/**
 * What the stress law needs to know of a body that cools at a steady rate q: each figure, in m², times
 * q/κ is a temperature difference, and that times Eα/(1−ν) a stress.
 */
export type CoolingBody = {
  /** Core over surface. */
  readonly coreSurfaceM2: number;
  /** Tension at the surface while cooling without relaxation; compression there once frozen in. */
  readonly surfaceM2: number;
  /** Compression in the core while cooling; tension there once frozen in. */
  readonly centreM2: number;
  /** Thickness of the slab with the same core-to-surface difference, m. */
  readonly slabEquivalentM: number;
};

/**
 * The cooling body of a solid.
 *
 * All round: exact for slab, brick, cylinder and ball. `thickestM`, when it is known, takes the place
 * of the shape's smallest dimension.
 *
 * One face: the other faces are insulated. A slab cooled on one face is half of a slab twice as thick,
 * exactly. A brick is taken as cooled on its largest face, a cylinder as a slab of its smaller
 * dimension; both are then one-face slabs. A ball has no such closed form: the trade's rule of twice
 * the thickness (common practice, no source) is used. A mesh has been solved with its upper side open and
 * the rest insulated; one for which that could not be done is refused before.
 */
export function coolingBody(solid: Solid, cooling: Cooling, thickestM?: number): CoolingBody {
  const thick = thickestM === undefined ? solid : withThickness(solid, thickestM);
  if (cooling === "all-round") return fromConduction(conductionOf(thick), boxOf(thick));
  if (thick.shape === "mesh") return openFaceBody(thick.body);
  if (thick.shape === "ball") {
    const doubled: Solid = { shape: "ball", diameterM: 2 * thick.diameterM };
    return fromConduction(conductionOf(doubled), boxOf(doubled));
  }
  return slabBody(2 * Math.min(...boxOf(thick)));
}

/** With its mirror image below it, a body cooled from above is one cooled from both sides and insulated around. */
function openFaceBody({ openFace, boxM: [, , heightM] }: MeshBody): CoolingBody {
  if (openFace === null) throw new Error("a mesh without an open face was planned as cooling through it");
  return fromConduction(openFace, [Infinity, Infinity, 2 * heightM]);
}

/** A slab cooled on both faces. */
export function slabBody(thicknessM: number): CoolingBody {
  return fromConduction(slabConduction(thicknessM), [Infinity, Infinity, thicknessM]);
}

function boxOf(solid: Solid): readonly [number, number, number] {
  return solid.shape === "slab" ? [Infinity, Infinity, solid.thicknessM] : boxAround(solid);
}

function conductionOf(solid: Solid): Conduction {
  switch (solid.shape) {
    case "slab":
      return slabConduction(solid.thicknessM);
    case "brick":
      return brickConduction(solid.lengthsM);
    case "cylinder":
      return cylinderConduction(solid.diameterM, solid.heightM);
    case "ball":
      return ballConduction(solid.diameterM);
    case "mesh":
      return solid.body;
  }
}

function withThickness(solid: Solid, thickestM: number): Solid {
  switch (solid.shape) {
    case "slab":
      return { ...solid, thicknessM: thickestM };
    case "brick": {
      const [small, middle, large] = [...solid.lengthsM].sort((x, y) => x - y) as [number, number, number];
      return { shape: "brick", lengthsM: [thickestM, Math.max(small, middle), large] };
    }
    case "cylinder":
      return solid.diameterM <= solid.heightM
        ? { ...solid, diameterM: thickestM }
        : { ...solid, heightM: thickestM };
    case "ball":
      return { ...solid, diameterM: thickestM };
    // Its thickness is worked out, not given; a thickness beside a mesh is refused before.
    case "mesh":
      return solid;
  }
}

/** Share of a slab's centre stress up to which a body is compact: its surface follows the mean of u. */
const COMPACT = 0.75;

/**
 * Stress scales from the exact conduction. The surface stress of a body free to strain is Eα/(1−ν)
 * times mean minus surface temperature; the centre stress is that factor times core minus mean, times
 * 1 for long and flat bodies and 2/3 for a ball (Timoshenko & Goodier, Theory of Elasticity). Between
 * them the factor follows smallest over largest dimension, and no body is stressed more than the
 * unbounded slab of its own thickness, as the published thick-slab tables take it: both are
 * interpolations without a source, exact for slab, long cylinder and ball.
 */
function fromConduction({ maxM2, meanM2 }: Conduction, box: readonly [number, number, number]): CoolingBody {
  const smallest = Math.min(...box);
  const largest = Math.max(...box);
  const slab = smallest ** 2 / 24;
  const own = (1 - smallest / largest / 3) * (maxM2 - meanM2);
  const flat = Math.min(1, Math.max(0, (own / slab - COMPACT) / (1 - COMPACT)));
  return {
    coreSurfaceM2: maxM2,
    surfaceM2: meanM2 + flat * Math.max(0, (2 / 3) * maxM2 - meanM2),
    centreM2: Math.min(own, slab),
    slabEquivalentM: Math.sqrt(8 * maxM2),
  };
}
