import { refuse, type Refusal } from "@/lib/domain/refusal";
import type { Ctx } from "@/lib/server/command";
import { titleOf } from "@/lib/server/rows/firing-title";
import type { LockedFiring } from "@/lib/server/rows/lock-firing";
import { lapseJoining } from "@/lib/server/runs/lapse-joining";

/** Frees everything of a run at once; its casting can then be booked anew. The rows stay, for the record. What was only held lapses. */
export async function endRun(ctx: Ctx, firing: LockedFiring, ended: "cancelled" | "released", reason: string | undefined): Promise<void> {
  const status = firing.status === "held" ? "lapsed" : ended;
  const { tx } = ctx;
  const { firingId } = firing;
  const standing = { firingId, standing: true };
  await lapseJoining(ctx, firing, `the firing was ${status}`);
  await tx.booking.updateMany({ where: standing, data: { standing: false } });
  await tx.lift.updateMany({ where: standing, data: { standing: false } });
  await tx.firingCasting.updateMany({ where: standing, data: { standing: false } });
  await tx.firing.updateMany({
    where: { firingId },
    data: { status, endedReason: reason ?? null, expectedEnd: null, version: { increment: 1 } },
  });
  await ctx.audit({
    subject: "firing",
    subjectId: firingId,
    before: { status: firing.status, bookings: bookingsForRecord(firing) },
    after: { status },
    ...(reason === undefined ? {} : { reason }),
  });
}

export function bookingsForRecord(firing: LockedFiring) {
  return firing.bookings.map(({ purpose, equipmentId, startsAt, endsAt }) => ({
    purpose,
    equipmentId,
    from: startsAt.toISOString(),
    to: endsAt.toISOString(),
  }));
}

/** What a member or the manager may still take off the calendar: what is planned, or only held. */
export function notEndable(firing: LockedFiring): Refusal | undefined {
  return firing.status === "held" ? undefined : notPlanned(firing);
}

const STARTED: Readonly<Record<string, string>> = {
  started: "has started; a firing that runs is neither moved nor taken away",
  opened: "is over and opened",
  cancelled: "was cancelled",
  released: "was released",
  held: "is only held; confirm it first",
  lapsed: "was only held, and is over",
};

/** Only what has not started can still be moved or taken away. */
export function notPlanned(firing: LockedFiring): Refusal | undefined {
  if (firing.status === "planned") return undefined;
  return refuse({
    code: "not-planned",
    field: "firingId",
    message: `The firing of ${titleOf(firing.plan)} ${STARTED[firing.status] ?? `is ${firing.status}`}.`,
  });
}
