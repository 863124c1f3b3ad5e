import type { LearnedMargin } from "@/lib/domain/firing/learn-margin";

/**
 * What a person tells the calculation about one casting. The JSON of the `plan` command line, the
 * casting form and the stored casting all have this one shape (checked by
 * `lib/contracts/casting-input.ts`). Lengths mm, masses kg, temperatures °C, stresses MPa: these are
 * the workshop's units, and the names carry them.
 */
export type CatalogueGlassId =
  | "soda-lime-casting"
  | "soda-lime-float"
  | "lead-crystal-24"
  | "lead-crystal-30"
  | "lead-crystal-45"
  | "borosilicate-33";

export type Relaxation = {
  readonly referenceC?: number;
  readonly activationK?: number;
  readonly nonlinearity?: number;
  readonly structure?: readonly (readonly [weight: number, seconds: number])[];
  readonly shear?: readonly (readonly [weight: number, seconds: number])[];
  readonly bulk?: readonly (readonly [weight: number, seconds: number])[];
  readonly bulkResidual?: number;
};

/** A member's own glass; whatever is left out is taken from the nearest catalogue glass and named in the warnings. */
export type OwnGlass = {
  readonly name: string;
  readonly densityKgM3?: number;
  readonly viscosity?: { readonly A: number; readonly B: number; readonly T0C: number };
  /** Fixed points from a maker's sheet; used when `viscosity` is left out. */
  readonly strainPointC?: number;
  readonly annealingPointC?: number;
  readonly softeningPointC?: number;
  readonly expansionSolidPerK?: number;
  readonly expansionLiquidPerK?: number;
  readonly youngGPa?: number;
  readonly poisson?: number;
  readonly conductivityWPerMK?: readonly [c0: number, c1: number];
  readonly heatCapacity?: "soda-lime" | number;
  readonly relaxation?: Relaxation;
};

export type Piece = {
  readonly shape: "slab" | "brick" | "cylinder" | "ball" | "mesh";
  /** slab [thickness]; brick [a,b,c]; cylinder [diameter,height]; ball [diameter]; mesh: left out. */
  readonly sizeMm?: readonly number[];
  /** mesh only: path of an STL or OBJ file, for the command line. */
  readonly file?: string;
  /** mesh only: the mesh that was sent to the workshop and read there. */
  readonly meshId?: string;
  readonly waxKg?: number;
  readonly waxDensityKgM3?: number;
  /** The thickest part, when it is known better than the shape says. */
  readonly thickestMm?: number;
};

export type Cooling = "all-round" | "one-face";

export type Mould = {
  readonly wallMm: number;
  /** Parts by weight. */
  readonly plasterSilicaWater: readonly [plaster: number, silica: number, water: number];
  readonly driedBeforeLoading?: boolean;
};

export type Feeder = { readonly diameterMm: number; readonly lengthMm: number; readonly waxKg?: number };

export type KilnForPlan = {
  /** Width, depth, height inside. */
  readonly insideMm: readonly [number, number, number];
  readonly powerKw: number;
  readonly lossWPerK: number;
  readonly heatCapacityKJPerK: number;
  readonly maxC: number;
  readonly controllerSegments?: number;
  readonly minRateKPerH?: number;
  /** What this kiln's own firings say about the margin; left out, the usual margin is used. Set by the server, never by a person. */
  readonly margin?: LearnedMargin;
};

/** `permanentMPa` bounds the largest permanent tension, `passingMPa` the largest passing tension while cooling. */
export type StressLevel = "careful" | { readonly permanentMPa: number; readonly passingMPa: number };

export type CastingInput = {
  readonly glass: CatalogueGlassId | OwnGlass;
  readonly piece: Piece;
  readonly cooling: Cooling;
  readonly mould?: Mould;
  readonly feeder?: Feeder;
  readonly kiln?: KilnForPlan;
  readonly stress: StressLevel;
  /** The hottest the program may go, when the member wants another than the glass's own. */
  readonly processC?: number;
};
