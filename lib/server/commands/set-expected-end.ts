import { Temporal } from "temporal-polyfill";
import { paths } from "@/lib/contracts/paths";
import { setExpectedEndSchema } from "@/lib/contracts/runs";
import { can } from "@/lib/domain/access/roles";
import { ok, refuse, type Refusal } from "@/lib/domain/refusal";
import { showTime } from "@/lib/domain/time/show-time";
import { toDate, toInstant } from "@/lib/server/clock";
import { command, NOT_ALLOWED, type Ctx } from "@/lib/server/command";
import { titleOf } from "@/lib/server/rows/firing-title";
import { isIn, othersIn } from "@/lib/server/rows/in-firing";
import { kilnOf } from "@/lib/server/rows/kiln-of";
import { lockFiring, NO_SUCH_FIRING, type LockedFiring } from "@/lib/server/rows/lock-firing";
import { tell } from "@/lib/server/tell";

/**
 * Whoever runs a firing says when it will really be cool enough to unload. It changes no booking: when
 * that is later than its unloading is booked, it shows as a clash for the manager.
 */
export const setExpectedEnd = command({
  name: "set-expected-end",
  needs: "start-firings",
  input: setExpectedEndSchema,
  run: async (ctx, { firingId, at, reason }) => {
    const { tx, who } = ctx;
    const firing = await lockFiring(tx, firingId);
    if (firing === null) return refuse(NO_SUCH_FIRING);
    const mine = isIn(firing, who.memberId);
    if (!mine && !can(who.roles, "manage-runs") && !who.roles.includes("assistant")) return refuse(NOT_ALLOWED);
    const expected = Temporal.Instant.from(at);
    const refusal = wrongTime(ctx, firing, expected);
    if (refusal) return refusal;
    await tx.firing.updateMany({ where: { firingId }, data: { expectedEnd: toDate(expected), version: { increment: 1 } } });
    await ctx.audit({
      subject: "firing",
      subjectId: firingId,
      before: { expectedEnd: firing.expectedEnd?.toISOString() ?? null },
      after: { expectedEnd: expected.toString() },
      reason,
    });
    const others = othersIn(firing, who.memberId);
    if (others.length > 0) {
      const when = showTime(expected, who.timeZone);
      const text = `${who.name} expects ${titleOf(firing.plan)} to be cool enough to unload at ${when}.`;
      await tell(ctx, { to: others, kind: "firing", text, reason, href: paths.firing(firingId) });
    }
    return ok({ firingId, expectedEnd: expected.toString() });
  },
});

function wrongTime({ now, who }: Ctx, firing: LockedFiring, expected: Temporal.Instant): Refusal | undefined {
  if (firing.status !== "planned" && firing.status !== "started") {
    return refuse({ code: "not-running", field: "firingId", message: `This firing is ${firing.status}; it holds no kiln any more.` });
  }
  const kiln = kilnOf(firing);
  const start = kiln === undefined ? now : toInstant(kiln.startsAt);
  const first = Temporal.Instant.compare(start, now) > 0 ? start : now;
  if (Temporal.Instant.compare(expected, first) > 0) return undefined;
  const after = showTime(first, who.timeZone);
  return refuse({
    code: "out-of-range",
    field: "at",
    value: expected.toString(),
    allowed: `later than ${after}`,
    message: `The kiln cannot be cool at ${showTime(expected, who.timeZone)}; choose a time later than ${after}.`,
  });
}
