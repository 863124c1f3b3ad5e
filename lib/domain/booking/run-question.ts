import type { Temporal } from "temporal-polyfill";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import type { Equipment } from "@/lib/domain/booking/equipment";
import type { Floor } from "@/lib/domain/booking/fits";
import type { RunProposalAt } from "@/lib/domain/booking/run-plan";
import type { TakenCalendar } from "@/lib/domain/booking/taken-calendar";
import type { WorkshopHours } from "@/lib/domain/time/staffed-hours";

/** A stretch in which a piece of equipment cannot be had: a standing booking, or out of service. */
export type BusySpan = {
  readonly equipmentId: string;
  readonly start: Temporal.Instant;
  readonly end: Temporal.Instant;
  /** Kilns: when its loading starts, before the door closes; the kiln must be empty by then. */
  readonly loadingFrom?: Temporal.Instant;
  /** Who or what holds it, for refusals: "Ida's Seal", "new elements". */
  readonly holder?: string;
};

export type HandsSpan = { readonly start: Temporal.Instant; readonly end: Temporal.Instant; readonly hands: number };

export type HeatingSpan = {
  readonly kilnId: string;
  readonly start: Temporal.Instant;
  readonly end: Temporal.Instant;
  readonly kw: number;
};

export type NotShown = { readonly person: string; readonly kilnIds: ReadonlySet<string> };

/** Everything a search for a run needs to know. Nothing here is read from a clock or a database. */
export type RunQuestion = {
  readonly plan: CastingPlan;
  /** Kiln by kiln plans, where the length depends on the kiln; kilns not named use `plan`. */
  readonly planByKiln?: ReadonlyMap<string, CastingPlan>;
  readonly driedBeforeLoading: boolean;
  /** Set when the mould has been steamed out already, or that booking stays where it is: when it ends. */
  readonly steamedOutAt?: Temporal.Instant | null | undefined;
  /** When the steam-out starts that was agreed to: that one or none, although there may be a better one by now. */
  readonly steamFrom?: Temporal.Instant | undefined;
  readonly equipment: readonly Equipment[];
  readonly busy: readonly BusySpan[];
  /** Lifts planned already; they take hands away from the people on duty. */
  readonly lifts: readonly HandsSpan[];
  readonly heating: readonly HeatingSpan[];
  /** What is taken beside those three lists, as numbers: for calendars of many thousand bookings. It names no holders. */
  readonly calendar?: TakenCalendar | undefined;
  /** Which of the kilns in the calendar heat when; only for naming them. Those of `heating` are named too. */
  readonly heaters?: readonly HeatingSpan[] | undefined;
  /** The electrician's limit for kilns that heat together; null when there is none. */
  readonly powerLimitKw: number | null;
  /** Kilns that the casting's owner was not shown yet. */
  readonly notShown?: NotShown | undefined;
  readonly hours: WorkshopHours;
  readonly floor?: Floor;
  /** Nothing of the run starts earlier. */
  readonly notBefore: Temporal.Instant;
  /** A wish, never a limit: a later run is offered and says by how many days. */
  readonly neededBy: Temporal.PlainDate | null;
  /** The kiln must be free again by then. */
  readonly horizon: Temporal.Instant;
  /** How many alternatives to offer for each kiln, each on a later day than the one before. */
  readonly perKiln: number;
};

/** Either at least one run, earliest first, or one line why there is none. */
export type KilnAnswerAt<T> = {
  readonly kilnId: string;
  readonly kilnName: string;
  readonly runs: readonly RunProposalAt<T>[];
  readonly whyNot: string | null;
};

export type FoundRunsAt<T> = {
  readonly kilns: readonly KilnAnswerAt<T>[];
  /** What stands in the way on every kiln; empty when at least one run was found. */
  readonly refusals: readonly string[];
};

export type KilnAnswer = KilnAnswerAt<Temporal.Instant>;
export type FoundRuns = FoundRunsAt<Temporal.Instant>;
