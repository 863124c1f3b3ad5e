import type { Temporal } from "temporal-polyfill";
import type { Equipment, Kiln } from "@/lib/domain/booking/equipment";
import { inspectionSpans } from "@/lib/domain/booking/inspection";
import { MAX_DAYS_FROM_STEAM_TO_LOAD } from "@/lib/domain/booking/run-plan";
import type { RunQuestion } from "@/lib/domain/booking/run-question";
import type { TakenCalendar } from "@/lib/domain/booking/taken-calendar";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { loadNamedTime, type WhoseTime } from "@/lib/server/rows/named-time";
import { loadCalendar } from "@/lib/server/rows/taken-calendar";
import { loadGround, type Ground } from "@/lib/server/runs/ground";
import type { Statements } from "@/lib/server/statements";
import type { Place } from "@/lib/server/who";

/** How far ahead runs are offered and booked. */
export const HORIZON_MONTHS = 18;

type Asked = {
  readonly plan: CastingPlan;
  readonly planByKiln: ReadonlyMap<string, CastingPlan>;
  readonly equipment: readonly Equipment[];
  readonly driedBeforeLoading: boolean;
  readonly notBefore: Temporal.Instant;
  readonly neededBy: Temporal.PlainDate | null;
  readonly perKiln: number;
  /** Whose casting it is; left out where no kiln is chosen. */
  readonly ownerId?: string | undefined;
  /** The run that is being moved: its own bookings do not stand in its way. */
  readonly withoutFiring?: string | undefined;
  readonly steamedOutAt?: Temporal.Instant | undefined;
  /** Where a refusal must say who is in the way. */
  readonly named?: WhoseTime;
  /** Where they were read already, in this transaction. */
  readonly ground?: Ground;
  readonly calendar?: TakenCalendar;
};

/** Everything the search for a run needs to know, as it stands in this transaction. */
export async function loadRunQuestion(tx: Statements, who: Place, asked: Asked): Promise<RunQuestion> {
  const { withoutFiring, steamedOutAt, ownerId, named, ground: given, calendar, ...rest } = asked;
  const ground = given ?? (await loadGround(tx, who, { from: asked.notBefore, ownerId }));
  const whose = named === undefined ? { busy: [], heating: [] } : await loadNamedTime(tx, named, withoutFiring);
  return {
    ...rest,
    calendar: calendar ?? await loadCalendar(tx, asked.notBefore, withoutFiring),
    busy: [...whose.busy, ...ground.outages, ...inspectionSpans(asked.equipment, who.timeZone)],
    lifts: [],
    heating: [],
    heaters: whose.heating,
    notShown: ownerId === undefined ? undefined : ground.notShown,
    ...(steamedOutAt === undefined ? {} : { steamedOutAt }),
    powerLimitKw: ground.powerLimitKw,
    hours: ground.hours,
    horizon: horizonFrom(asked.notBefore, who.timeZone),
  };
}

export function horizonFrom(instant: Temporal.Instant, timeZone: string): Temporal.Instant {
  return instant.toZonedDateTimeISO(timeZone).add({ months: HORIZON_MONTHS }).toInstant();
}

/** Whose bookings a refusal of this start may have to name: the kiln's, the steamers' and the trolleys', from shortly before until it is unloaded. */
export function whoseTime(equipment: readonly Equipment[], kiln: Kiln, kilnFrom: Temporal.Instant, plan: CastingPlan): WhoseTime {
  const others = equipment.filter((piece) => piece.kind !== "kiln");
  const days = MAX_DAYS_FROM_STEAM_TO_LOAD;
  return {
    equipmentIds: [kiln.equipmentId, ...others.map((piece) => piece.equipmentId)],
    from: kilnFrom.subtract({ hours: 24 }),
    until: kilnFrom.add({ hours: Math.ceil(plan.reservation.hours) + 24 * days }),
  };
}

export function kilnsOf(equipment: readonly Equipment[]): readonly Kiln[] {
  return equipment.filter((item): item is Kiln => item.kind === "kiln");
}
