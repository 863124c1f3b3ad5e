import type { Temporal } from "temporal-polyfill";
import type { Lift } from "@/lib/domain/firing/casting-plan";

/** What one piece of equipment is booked for within a run. */
export type Purpose = "steam-out" | "load" | "kiln" | "unload";

/** One piece of equipment for one half-open interval, in times of kind T. `hands` are the people needed, 0 for the kiln itself. */
export type RunBookingAt<T> = {
  readonly purpose: Purpose;
  readonly equipmentId: string;
  readonly start: T;
  readonly end: T;
  readonly hands: number;
  /** Whose steam-out, in a shared firing; everything else is for all castings at once. */
  readonly castingId?: string;
};

/** One planned movement, with everything the lift sheet says about it. */
export type RunLiftAt<T> = {
  readonly what: Lift["what"];
  readonly start: T;
  readonly end: T;
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
export type RunProposalAt<T> = {
  readonly kilnId: string;
  /** Null when there is nothing to steam out, or when it is done already. */
  readonly steamerId: string | null;
  readonly trolleyIdLoad: string | null;
  readonly trolleyIdUnload: string | null;
  readonly bookings: readonly RunBookingAt<T>[];
  readonly lifts: readonly RunLiftAt<T>[];
  /** Door closed. */
  readonly kilnFrom: T;
  /** Free for the next load: unloaded plus the kiln's turnaround. */
  readonly kilnTo: T;
  /** Unloaded: the piece stands on the bench in its mould. */
  readonly readyAt: T;
  /** Elapsed hours from door closed to the start of the soak; the kiln counts with its rated power. */
  readonly heatingHours: number;
  /** Local days by which `readyAt` misses the needed-by date; 0 when it does not, or there is none. */
  readonly daysLate: number;
};

export type RunBooking = RunBookingAt<Temporal.Instant>;
export type RunLift = RunLiftAt<Temporal.Instant>;
export type RunProposal = RunProposalAt<Temporal.Instant>;

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
