import type { Temporal } from "temporal-polyfill";
import type { Lift } from "@/lib/domain/firing/casting-plan";

/** What one piece of equipment is booked for within a run. */
export type Purpose = "steam-out" | "load" | "kiln" | "unload";

/** One piece of equipment for one half-open interval. `hands` are the people needed, 0 for the kiln itself. */
export type RunBooking = {
  readonly purpose: Purpose;
  readonly equipmentId: string;
  readonly start: Temporal.Instant;
  readonly end: Temporal.Instant;
  readonly hands: number;
  /** Whose steam-out, in a shared firing; everything else is for all castings at once. */
  readonly castingId?: string;
};

/** One planned movement, with everything the lift sheet says about it. */
export type RunLift = {
  readonly what: Lift["what"];
  readonly start: Temporal.Instant;
  readonly end: Temporal.Instant;
  readonly kg: number;
  readonly hands: number;
  readonly trolleyId: string | null;
  readonly mouldState: Lift["mouldState"];
  readonly hot: boolean;
  readonly wet: boolean;
  readonly fromPlace: string;
  readonly toPlace: string;
  readonly flag: Lift["flag"];
  /** Whose, in a shared firing. */
  readonly castingId?: string;
};

/**
 * All that one firing needs, to be booked together or not at all. A load moved without a trolley has
 * a lift but no booking, because a booking always is of a piece of equipment.
 */
export type RunProposal = {
  readonly kilnId: string;
  /** Null when there is nothing to steam out, or when it is done already. */
  readonly steamerId: string | null;
  readonly trolleyIdLoad: string | null;
  readonly trolleyIdUnload: string | null;
  readonly bookings: readonly RunBooking[];
  readonly lifts: readonly RunLift[];
  /** Door closed. */
  readonly kilnFrom: Temporal.Instant;
  /** Free for the next load: unloaded plus the kiln's turnaround. */
  readonly kilnTo: Temporal.Instant;
  /** Unloaded: the piece stands on the bench in its mould. */
  readonly readyAt: Temporal.Instant;
  /** Elapsed hours from door closed to the start of the soak; the kiln counts with its rated power. */
  readonly heatingHours: number;
  /** Local days by which `readyAt` misses the needed-by date; 0 when it does not, or there is none. */
  readonly daysLate: number;
};

/** All common practice, no source. */
export const LOAD_MINUTES = 30;
export const LOAD_MINUTES_TEAM = 45;
export const UNLOAD_MINUTES = 30;
export const STEAMER_LIFT_MINUTES = 15;
/** A mould that is loaded wet drains at least this long after steaming. */
export const DRAIN_HOURS = 2;
/** A steamed mould waits no longer than this for its kiln: it dries unevenly, gets knocked and grows weak. */
export const MAX_DAYS_FROM_STEAM_TO_LOAD = 21;

export function loadMinutes(hands: number): number {
  return hands >= 2 ? LOAD_MINUTES_TEAM : LOAD_MINUTES;
}
