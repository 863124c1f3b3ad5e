import type { LearnedMargin } from "@/lib/domain/firing/learn-margin";

/**
 * Everything that follows from a {@link CastingInput}: what the `plan` command line prints, what the
 * form shows beside the fields, and what is stored, unchanged for ever, behind every booking.
 */
export type StageName = "Dry" | "Climb" | "Flow" | "Drop" | "Soak" | "Slow cool" | "Run-down" | "Open";

export type Stage = {
  readonly stage: StageName;
  /** Where the program stands at the end of this stage's segment. */
  readonly toC: number;
  /** Signed K/h; 0 while holding. */
  readonly rateKPerH: number;
  readonly hours: number;
  /** One sentence with its numbers. */
  readonly why: string;
};

export type Lift = {
  /** Which movement, in the order they happen. */
  readonly what: "to-steamer" | "from-steamer" | "load" | "unload";
  readonly kg: number;
  readonly hands: number;
  readonly mouldState: "wet" | "dry" | "fired";
  readonly hot: boolean;
  readonly wet: boolean;
  readonly trolley: boolean;
  /** Whose, in a shared firing. */
  readonly castingId?: string;
  /** "amber" above the cautious filter figure, "red" when a mechanical aid is needed. Never "safe". */
  readonly flag: "none" | "amber" | "red";
  readonly why: string;
};

/** One casting of a shared firing, as its joined plan keeps it. */
export type SharedCasting = {
  readonly castingId: string;
  readonly title: string;
  readonly glassName: string;
  readonly driedBeforeLoading: boolean;
  readonly waxKg: number;
  readonly mould: Pick<CastingPlan["mould"], "wetKg" | "dryKg" | "outsideMm">;
  readonly chargeKg: number;
  readonly potL: number;
  readonly shelfKg: number;
  readonly steamOut: CastingPlan["steamOut"];
  readonly drying: CastingPlan["drying"];
  /** What its own plan in this kiln would take. */
  readonly alone: { readonly firingHours: number; readonly reservationHours: number; readonly kWh: number };
  /** As followed through the joined program, with its member's limits beside. */
  readonly stress: { readonly permanentMPa: number; readonly permanentLimitMPa: number; readonly passingMPa: number; readonly passingLimitMPa: number };
  /** Left and front edge from the kiln's inner left and front wall, and its size as it stands, mm. */
  readonly place: { readonly xMm: number; readonly yMm: number; readonly widthMm: number; readonly depthMm: number; readonly heightMm: number; readonly round: boolean };
};

/** One reason for holding a kiln longer than its program. Hours are negative where a kiln needs less than usual. */
export type MarginItem = {
  readonly what: string;
  readonly hours: number;
  /** One sentence with its numbers. */
  readonly why: string;
  readonly source: "common practice, no source" | "from memory" | "worked out";
};

/** The items add up to `hours`, what is held beyond the program. */
export type Margin = {
  readonly hours: number;
  /** What would be held without any record of this kiln's firings. */
  readonly usualHours: number;
  readonly items: readonly MarginItem[];
  readonly learnedFrom?: LearnedMargin;
};

export type CastingPlan = {
  /** Version of the calculation, e.g. "transient-2". */
  readonly calculation: string;
  readonly glass: {
    readonly name: string;
    readonly pieceKg: number;
    readonly feederKg: number;
    readonly headKg: number;
    readonly residueKg: number;
    readonly chargeKg: number;
  };
  readonly pot: { readonly litres: number; readonly heightMm: number; readonly diameterMm: number; readonly kg: number };
  readonly mould: {
    readonly wetKg: number;
    readonly dryKg: number;
    readonly firedKg: number;
    readonly powderKg: number;
    readonly plasterKg: number;
    readonly silicaKg: number;
    readonly waterKg: number;
    readonly freeWaterKg: number;
    readonly boundWaterKg: number;
    readonly outsideMm: readonly [width: number, depth: number, height: number];
  };
  readonly waxKg: number;
  /** Outside of everything that goes into the kiln: mould, prop gap and pot. */
  readonly loadMm: { readonly width: number; readonly depth: number; readonly height: number };
  /** What the shelf carries: the larger of wet mould + pot + charge and fired mould + glass. */
  readonly shelfKg: number;
  readonly steamOut: { readonly hours: number; readonly condensateKg: number };
  readonly drying: { readonly airDaysFrom: number; readonly airDaysTo: number };
  readonly shape: { readonly slabEquivalentMm: number; readonly volumeL: number };
  readonly firing: {
    readonly stages: readonly Stage[];
    readonly hours: number;
    readonly annealingHours: number;
    readonly peakC: number;
  };
  readonly stress: {
    readonly permanentCentreMPa: number;
    readonly permanentSurfaceMPa: number;
    readonly passingMPa: number;
    readonly coreSurfaceK: number;
    readonly centreNmPerCm: number;
  };
  readonly reservation: {
    readonly hours: number;
    readonly kilnWeeks: number;
    readonly marginHours: number;
    readonly marginWhy: string;
    /** Missing only in plans that were stored before the margin was itemised. */
    readonly margin?: Margin;
  };
  readonly energy: { readonly kWh: number };
  readonly lifts: readonly Lift[];
  readonly warnings: readonly string[];
  /** All castings of a shared firing, by id; left out when it is one casting's own. */
  readonly castings?: readonly SharedCasting[];
};
