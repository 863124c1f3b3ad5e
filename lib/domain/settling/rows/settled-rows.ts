/** The rows of a database that a settlement was written to, as they are: instants in epoch milliseconds, lengths mm, masses kg. */
export type SettledRows = {
  readonly timeZone: string;
  /** When it was accepted: what lies before has been, and is not looked at. */
  readonly acceptedAt: number;
  readonly moves: readonly SaidMove[];
  readonly firings: readonly FiringRow[];
  readonly bookings: readonly BookingRow[];
  readonly lifts: readonly LiftRow[];
  readonly equipment: readonly EquipmentRow[];
  readonly outages: readonly { readonly equipmentId: string; readonly from: number; readonly to: number | null; readonly reason: string }[];
  readonly hours: readonly { readonly weekday: number; readonly opensMin: number; readonly closesMin: number; readonly hands: number }[];
  /** Local dates, both closed. */
  readonly closures: readonly { readonly from: string; readonly to: string }[];
  readonly powerLimitKw: number | null;
  /** Firings that are none of the settlement's and were written together with it. */
  readonly alsoWritten: readonly { readonly title: string; readonly status: string }[];
};

/** What the settlement says of a run, and where that stood before; null for an ask. */
export type SaidMove = { readonly firingId: string; readonly kilnId: string; readonly kilnFrom: number; readonly kilnTo: number; readonly before: { readonly kilnFrom: number } | null };

/** A moved firing. */
export type FiringRow = {
  readonly firingId: string;
  readonly title: string;
  readonly ownerId: string;
  readonly status: string;
  /** What must stay booked. */
  readonly purposes: readonly string[];
  /** That stand in it. */
  readonly castingIds: readonly string[];
  /** For its castings, that still wait. */
  readonly openAsks: number;
  readonly plan: PlanFigures;
};

export type PlanFigures = {
  readonly castingId: string;
  readonly loadMm: { readonly width: number; readonly depth: number; readonly height: number };
  readonly shelfKg: number;
  readonly peakC: number;
  readonly reservationHours: number;
  readonly lifts: readonly { readonly what: string; readonly kg: number; readonly hands: number; readonly trolley: boolean; readonly castingId?: string }[];
  /** Of every casting in it. */
  readonly moulds: readonly MouldFigures[];
};

export type MouldFigures = { readonly castingId: string; readonly outsideMm: readonly [number, number, number]; readonly investedKg: number; readonly steamHours: number; readonly dried: boolean; readonly airDaysFrom: number };

/** Standing, of any firing that holds its place. What is not of the booking is of its firing; the beginnings of its lifts are null where it has none. */
export type BookingRow = {
  readonly firingId: string;
  readonly title: string;
  readonly status: string;
  readonly equipmentId: string;
  readonly purpose: string;
  readonly castingId: string | null;
  readonly from: number;
  readonly to: number;
  readonly heatingHours: number;
  readonly expectedEnd: number | null;
  readonly loadFrom: number | null;
  readonly unloadFrom: number | null;
};

/** Standing. The day, its weekday and the minutes are those of the workshop's clock, as the database reads it. */
export type LiftRow = {
  readonly firingId: string;
  readonly castingId: string;
  readonly trolleyId: string | null;
  readonly what: string;
  readonly from: number;
  readonly to: number;
  readonly kg: number;
  readonly hands: number;
  readonly day: string;
  readonly weekday: number;
  readonly fromMin: number;
  readonly toMin: number;
};

export type EquipmentRow = {
  readonly equipmentId: string;
  readonly kind: string;
  readonly name: string;
  readonly limits: Readonly<Record<string, unknown>>;
  readonly retired: boolean;
  /** From when on it may not be used, uninspected. */
  readonly uninspectedFrom: number | null;
  /** Null when anybody's castings may be fired in it. */
  readonly shownTo: readonly string[] | null;
};

/** A fact that does not hold for a run, said in one sentence. */
export type Objection = { readonly fact: Fact; readonly firingId: string | null; readonly sentence: string };
export type Fact = "as-said" | "whole" | "started" | "kiln" | "fits" | "staffed" | "hands" | "trolley" | "steamer" | "power" | "outage" | "together";
