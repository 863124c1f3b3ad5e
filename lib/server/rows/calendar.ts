import type { Temporal } from "temporal-polyfill";
import type { Kiln } from "@/lib/domain/booking/equipment";
import { FOR_GOOD } from "@/lib/domain/booking/inspection";
import type { BusySpan, HandsSpan, HeatingSpan } from "@/lib/domain/booking/run-question";
import { now, toDate, toInstant } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";
import { PLAN_TITLE, titleOf } from "@/lib/server/rows/firing-title";

/** All that already stands in the way from an instant on: bookings, outages, lifts, heating kilns. */
export type TakenTime = {
  readonly busy: readonly BusySpan[];
  readonly lifts: readonly HandsSpan[];
  readonly heating: readonly HeatingSpan[];
};

/** @param withoutFiring the run that is being moved; its own bookings do not stand in its way. */
export async function loadTakenTime(tx: Tx, from: Temporal.Instant, kilns: readonly Kiln[], withoutFiring?: string): Promise<TakenTime> {
  const after = { gt: toDate(from) };
  const other = withoutFiring === undefined ? {} : { firingId: { not: withoutFiring } };
  const bookings = await tx.booking.findMany({
    // A firing that is known to run over holds its kiln until then, although nobody has lengthened its booking yet.
    where: { standing: true, OR: [{ endsAt: after }, { purpose: "kiln", firing: { OR: [{ expectedEnd: after }, { status: "started" }] } }], ...other },
    select: {
      equipmentId: true, purpose: true, startsAt: true, endsAt: true, firingId: true,
      firing: { select: { heatingHours: true, expectedEnd: true, status: true, member: { select: { name: true } }, plan: { select: PLAN_TITLE } } },
    },
  });
  const outages = await tx.outage.findMany({ where: { withdrawnAt: null, OR: [{ endsAt: null }, { endsAt: after }] } });
  const lifts = await tx.lift.findMany({ where: { standing: true, endsAt: after, ...other }, select: { startsAt: true, endsAt: true, hands: true } });
  const loadingFrom = new Map(bookings.filter((b) => b.purpose === "load").map((b) => [b.firingId, toInstant(b.startsAt)]));
  const unloadFrom = new Map(bookings.filter((b) => b.purpose === "unload").map((b) => [b.firingId, b.startsAt.getTime()]));
  const kw = new Map(kilns.map((kiln) => [kiln.equipmentId, kiln.limits.powerKw]));
  return {
    busy: [
      ...bookings.map((b): BusySpan => {
        const loading = b.purpose === "kiln" ? loadingFrom.get(b.firingId) : undefined;
        return {
          equipmentId: b.equipmentId,
          start: toInstant(b.startsAt),
          end: toInstant(heldUntil(b, unloadFrom.get(b.firingId), toDate(now()))),
          holder: `${b.firing.member.name} for ${titleOf(b.firing.plan)}`,
          ...(loading === undefined ? {} : { loadingFrom: loading }),
        };
      }),
      ...outages.map((o): BusySpan => ({
        equipmentId: o.equipmentId,
        start: toInstant(o.startsAt),
        end: o.endsAt === null ? FOR_GOOD : toInstant(o.endsAt),
        holder: o.reason,
      })),
    ],
    lifts: lifts.map((l) => ({ start: toInstant(l.startsAt), end: toInstant(l.endsAt), hands: l.hands })),
    heating: bookings
      .filter((b) => b.purpose === "kiln")
      .map((b) => heatingSpan(b.equipmentId, toInstant(b.startsAt), b.firing.heatingHours, kw.get(b.equipmentId) ?? 0)),
  };
}

type Held = { readonly purpose: string; readonly endsAt: Date; readonly firing: { readonly expectedEnd: Date | null; readonly status: string } };

/** A firing that is over its time and not opened still has a hot load in its kiln: nobody may plan on it within a day. Common practice, no source. */
const OVERDUE_HOLD_MS = 24 * 3_600_000;

/** Unloading and turnaround move with the hour at which the kiln is cool enough; an unopened kiln is never free at once. */
function heldUntil({ purpose, endsAt, firing: { expectedEnd, status } }: Held, unloadFromMs: number | undefined, now: Date): Date {
  if (purpose !== "kiln") return endsAt;
  const late = expectedEnd === null ? 0 : expectedEnd.getTime() - (unloadFromMs ?? endsAt.getTime());
  const end = late > 0 ? endsAt.getTime() + late : endsAt.getTime();
  const overdue = status === "started" && end <= now.getTime();
  return new Date(overdue ? now.getTime() + OVERDUE_HOLD_MS : end);
}

function heatingSpan(kilnId: string, start: Temporal.Instant, hours: number, kw: number): HeatingSpan {
  return { kilnId, start, end: start.add({ seconds: Math.round(hours * 3600) }), kw };
}
