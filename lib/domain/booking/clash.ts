import { Temporal } from "temporal-polyfill";
import type { Equipment } from "@/lib/domain/booking/equipment";
import type { Purpose, RunLift } from "@/lib/domain/booking/run-plan";
import { crowdedClashes } from "@/lib/domain/booking/clash-crowded";
import { outageClashes } from "@/lib/domain/booking/clash-outage";
import { overrunClashes } from "@/lib/domain/booking/clash-overrun";
import { overloadClashes, thinCrewClashes } from "@/lib/domain/booking/clash-sums";
import type { Interval } from "@/lib/domain/time/interval";
import type { WorkshopHours } from "@/lib/domain/time/staffed-hours";

export type StandingBooking = Interval & {
  readonly bookingId: string;
  readonly equipmentId: string;
  readonly purpose: Purpose;
  readonly hands: number;
};

export type StandingLift = Interval & {
  readonly what: RunLift["what"];
  readonly hands: number;
  readonly trolleyId: string | null;
};

/** One firing that stands on the calendar, with everything it holds. */
export type StandingRun = {
  readonly firingId: string;
  readonly title: string;
  readonly ownerMemberId: string;
  readonly ownerName: string;
  /** A started firing never moves: everything else moves around it. */
  readonly status: "planned" | "started";
  readonly kilnId: string;
  readonly bookings: readonly StandingBooking[];
  /** The planned lifts, one of each kind. Left out: taken from the bookings, which miss lifts without a trolley. */
  readonly lifts?: readonly StandingLift[];
  /** Elapsed hours from door closed in which the kiln counts with its rated power. */
  readonly heatingHours: number;
  /** When the kiln is now expected to be cool enough to unload; null when nobody expects anything else than planned. */
  readonly expectedEnd: Temporal.Instant | null;
  /** What the firing plan asks for, from door closed until it may be unloaded. */
  readonly plannedHours: number;
};

/** A wish for one kiln that has no run yet. */
export type OpenAsk = {
  readonly askId: string;
  readonly title: string;
  readonly memberName: string;
  readonly kilnId: string;
  readonly from: Temporal.Instant;
  readonly to: Temporal.Instant;
};

export type Outage = {
  readonly outageId: string;
  readonly equipmentId: string;
  readonly from: Temporal.Instant;
  /** Null while nobody knows. */
  readonly to: Temporal.Instant | null;
  readonly reason: string;
};

export type ClashState = {
  readonly runs: readonly StandingRun[];
  readonly asks: readonly OpenAsk[];
  readonly outages: readonly Outage[];
  readonly equipment: readonly Equipment[];
  readonly hours: WorkshopHours;
  readonly powerLimitKw: number | null;
  /** Clashes that are over by then are left out. */
  readonly since?: Temporal.Instant;
};

export type ClashKind = "crowded" | "overrun" | "outage" | "thin-crew" | "overload";

export type Clash = Interval & {
  /** The same for the same clash as long as it lasts, built from the ids that take part. */
  readonly key: string;
  readonly kind: ClashKind;
  readonly equipmentIds: readonly string[];
  readonly firingIds: readonly string[];
  /** Those of the firings that have started, and so can only be worked around. */
  readonly startedFiringIds: readonly string[];
  readonly askIds: readonly string[];
  readonly sentence: string;
};

/** Everything on the calendar that cannot stand, in order of time. Touching is never a clash. */
export function findClashes(state: ClashState): readonly Clash[] {
  const { since } = state;
  return [
    ...crowdedClashes(state),
    ...overrunClashes(state),
    ...outageClashes(state),
    ...thinCrewClashes(state),
    ...overloadClashes(state),
  ]
    .filter((clash) => since === undefined || Temporal.Instant.compare(clash.end, since) > 0)
    .sort((a, b) => Temporal.Instant.compare(a.start, b.start) || (a.key < b.key ? -1 : 1));
}
