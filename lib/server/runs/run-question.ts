import type { Temporal } from "temporal-polyfill";
import type { Equipment, Kiln } from "@/lib/domain/booking/equipment";
import type { RunQuestion } from "@/lib/domain/booking/run-question";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import type { Tx } from "@/lib/server/db";
import { inspectionSpans } from "@/lib/domain/booking/inspection";
import { loadNotShown } from "@/lib/server/rows/not-shown";
import { loadTakenTime } from "@/lib/server/rows/calendar";
import { loadHours } from "@/lib/server/rows/workshop-hours";
import type { Who } from "@/lib/server/who";

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
};

/** Everything the search for a run needs to know, as it stands in this transaction. */
export async function loadRunQuestion(tx: Tx, who: Who, asked: Asked): Promise<RunQuestion> {
  const { withoutFiring, steamedOutAt, ownerId, ...rest } = asked;
  const workshop = await tx.workshop.findUniqueOrThrow({ where: { workshopId: who.workshopId } });
  const taken = await loadTakenTime(tx, asked.notBefore, kilnsOf(asked.equipment), withoutFiring);
  return {
    ...rest,
    ...taken,
    busy: [...taken.busy, ...inspectionSpans(asked.equipment, who.timeZone)],
    notShown: ownerId === undefined ? undefined : await loadNotShown(tx, ownerId),
    ...(steamedOutAt === undefined ? {} : { steamedOutAt }),
    powerLimitKw: workshop.powerLimitKw,
    hours: await loadHours(tx, who),
    horizon: horizonFrom(asked.notBefore, who.timeZone),
  };
}

export function kilnsOf(equipment: readonly Equipment[]): readonly Kiln[] {
  return equipment.filter((item): item is Kiln => item.kind === "kiln");
}

function horizonFrom(instant: Temporal.Instant, timeZone: string): Temporal.Instant {
  return instant.toZonedDateTimeISO(timeZone).add({ months: HORIZON_MONTHS }).toInstant();
}
