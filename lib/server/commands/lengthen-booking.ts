import { Temporal } from "temporal-polyfill";
import { paths } from "@/lib/contracts/paths";
import { lengthenBookingSchema } from "@/lib/contracts/runs";
import { can } from "@/lib/domain/access/roles";
import { laterEnd, type LaterEnd } from "@/lib/domain/booking/lengthen";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { showTime } from "@/lib/domain/time/show-time";
import { toInstant } from "@/lib/server/clock";
import { command, NOT_ALLOWED, type Ctx } from "@/lib/server/command";
import { titleOf } from "@/lib/server/rows/firing-title";
import { isIn, othersIn } from "@/lib/server/rows/in-firing";
import { kilnOf } from "@/lib/server/rows/kiln-of";
import { lockFiring, NO_SUCH_FIRING, type LockedFiring } from "@/lib/server/rows/lock-firing";
import { openEnd, writeEnd } from "@/lib/server/runs/change-end";
import { lockCalendar } from "@/lib/server/runs/lock-calendar";
import { tell } from "@/lib/server/tell";

/** Holds a firing's kiln for longer and moves its unloading to then; the rest of the run stays. */
export const lengthenBooking = command({
  name: "lengthen-booking",
  needs: "book-runs",
  input: lengthenBookingSchema,
  once: ({ requestKey }) => requestKey,
  run: async (ctx, { firingId, kilnTo, reason }) => {
    await lockCalendar(ctx);
    const firing = await lockFiring(ctx.tx, firingId);
    if (firing === null) return refuse(NO_SUCH_FIRING);
    const mine = isIn(firing, ctx.who.memberId);
    if (!mine && !can(ctx.who.roles, "manage-runs")) return refuse(NOT_ALLOWED);
    const end = await newEnd(ctx, firing, Temporal.Instant.from(kilnTo));
    if (!end.ok) return end;
    await writeEnd(ctx, firing, end.value, "the booking was lengthened");
    const before = { kilnTo: kilnOf(firing)?.endsAt.toISOString() ?? null };
    const after = { kilnTo: end.value.kilnTo.toString(), unloadFrom: end.value.unloadFrom.toString() };
    await ctx.audit({ subject: "firing", subjectId: firingId, before, after, ...(reason ? { reason } : {}) });
    const others = othersIn(firing, ctx.who.memberId);
    if (others.length > 0) {
      const until = showTime(end.value.kilnTo, ctx.who.timeZone);
      const text = `${ctx.who.name} lengthened your run for ${titleOf(firing.plan)} in ${kilnOf(firing)?.equipment.name ?? "its kiln"} until ${until}.`;
      await tell(ctx, { to: others, kind: "moved", text, reason, href: paths.firing(firingId) });
    }
    return ok({ firingId, kilnTo: after.kilnTo });
  },
});

async function newEnd(ctx: Ctx, firing: LockedFiring, wanted: Temporal.Instant): Promise<Outcome<LaterEnd>> {
  const open = await openEnd(ctx, firing);
  if (!open.ok) return open;
  const { kiln, kilnFrom, booked, question } = open.value;
  if (Temporal.Instant.compare(wanted, booked) <= 0) {
    const until = showTime(booked, ctx.who.timeZone);
    return refuse({
      code: "not-longer",
      field: "kilnTo",
      value: wanted.toString(),
      allowed: `later than ${until}`,
      message: `${kiln.name} is booked until ${until} already; choose a later time.`,
    });
  }
  const coolAt = firing.expectedEnd === null ? null : toInstant(firing.expectedEnd);
  return laterEnd(question, kiln, { kilnFrom, notFreeBefore: wanted, coolAt });
}
