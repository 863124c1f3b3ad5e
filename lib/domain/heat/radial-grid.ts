/** How heat spreads: plane by plane, ring by ring, shell by shell. */
export type BodyShape = "slab" | "cylinder" | "ball";

/**
 * Cells from the middle of a body to its outside: a slab from its mid-plane, a cylinder or ball from its
 * axis or centre. Areas and volumes per unit of what is left out (a square metre of slab, a metre of
 * cylinder over 2π, a ball over 4π).
 */
export type RadialGrid = {
  readonly shape: BodyShape;
  /** Positions of the faces, m; one more than cells. */
  readonly faces: Float64Array;
  readonly centres: Float64Array;
  readonly faceAreas: Float64Array;
  readonly volumes: Float64Array;
};

const POWER = { slab: 0, cylinder: 1, ball: 2 } as const;

/** Cells of the given widths, m, from the middle outwards. */
export function radialGrid(shape: BodyShape, widths: readonly number[]): RadialGrid {
  const n = widths.length;
  const power = POWER[shape];
  const faces = new Float64Array(n + 1);
  widths.forEach((width, i) => {
    faces[i + 1] = (faces[i] ?? 0) + width;
  });
  const at = (i: number): number => faces[i] ?? 0;
  return {
    shape,
    faces,
    centres: Float64Array.from(widths, (_, i) => (at(i) + at(i + 1)) / 2),
    faceAreas: Float64Array.from({ length: n + 1 }, (_, i) => at(i) ** power),
    volumes: Float64Array.from(widths, (_, i) => (at(i + 1) ** (power + 1) - at(i) ** (power + 1)) / (power + 1)),
  };
}

/** Widths that grow finer towards the outside, where temperature and stress change most; they add up to `length`. */
export function widthsTowardsOutside(length: number, cells: number): number[] {
  const raw = Array.from({ length: cells }, (_, i) => 1.6 - (1.2 * (i + 0.5)) / cells);
  const sum = raw.reduce((total, width) => total + width, 0);
  return raw.map((width) => (width * length) / sum);
}
