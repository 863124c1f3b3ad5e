/**
 * The coats a mould wall is built of by hand, from the wax outwards: two thin face coats that take the
 * surface, back-up coats that carry them, and the outer third as a jacket that holds it all together.
 * Lengths mm. A face coat and a jacket give a lighter, more even wall than one pour (published mould
 * practice); the thicknesses are common practice, no source.
 */
export type LayerKind = "face coat" | "back-up coat" | "jacket";

export type Layer = {
  readonly kind: LayerKind;
  /** 1 for the first of its kind. */
  readonly number: number;
  /** Of how many of its kind. */
  readonly of: number;
  /** Distances from the wax. */
  readonly fromMm: number;
  readonly toMm: number;
  /** Wire mesh or a metal band is laid on before this layer, which covers it. */
  readonly meshBefore: boolean;
};

const FACE_COATS = 2;
/** Brushed or flicked on, so that no bubble stays on the wax; in a thin wall a quarter of it each (common practice, no source). */
const FACE_COAT_MM = 5;
const FACE_SHARE = 1 / 4;
/** A thicker coat slumps before it sets (common practice, no source). */
const THICKEST_COAT_MM = 20;
/** A wall thinner than this has no jacket of its own: its outer third would be no coat (common practice, no source). */
const LEAST_WALL_WITH_JACKET_MM = 30;
const JACKET_SHARE = 1 / 3;
/** From 20 kg of glass a mould is held by wire mesh or a metal band (common practice, no source). */
export const REINFORCED_FROM_KG = 20;

/**
 * The coats of a wall, which fill it without a gap. Valid for walls of 10 to 150 mm, as a casting may
 * have. Mesh comes under the jacket, two thirds of the wall and so at least 20 mm from the glass;
 * practice asks for 15 mm and a covered outer edge.
 *
 * @example layersOf(40, 7.5) // two face coats of 5 mm, one back-up coat to 27 mm, a jacket to 40 mm
 */
export function layersOf(wallMm: number, glassKg: number): readonly Layer[] {
  const faceMm = FACE_COATS * Math.min(FACE_COAT_MM, FACE_SHARE * wallMm);
  const jacketed = wallMm >= LEAST_WALL_WITH_JACKET_MM;
  const backedMm = jacketed ? wallMm * (1 - JACKET_SHARE) : wallMm;
  const reinforced = jacketed && glassKg >= REINFORCED_FROM_KG;
  return [
    ...coats("face coat", 0, faceMm, FACE_COATS, false),
    ...coats("back-up coat", faceMm, backedMm, coatsFor(backedMm - faceMm), false),
    ...(jacketed ? coats("jacket", backedMm, wallMm, coatsFor(wallMm - backedMm), reinforced) : []),
  ];
}

/** Whether this much glass asks for mesh that a wall is too thin to cover. */
export function tooThinForMesh(wallMm: number, glassKg: number): boolean {
  return glassKg >= REINFORCED_FROM_KG && wallMm < LEAST_WALL_WITH_JACKET_MM;
}

function coatsFor(thicknessMm: number): number {
  return Math.max(1, Math.ceil(thicknessMm / THICKEST_COAT_MM - 1e-9));
}

function coats(kind: LayerKind, fromMm: number, toMm: number, of: number, mesh: boolean): Layer[] {
  const at = (step: number): number => (step === of ? toMm : fromMm + ((toMm - fromMm) * step) / of);
  return Array.from({ length: of }, (_, step) => ({
    kind, number: step + 1, of, fromMm: at(step), toMm: at(step + 1), meshBefore: mesh && step === 0,
  }));
}
