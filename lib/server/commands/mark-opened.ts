import { z } from "zod";
import { can } from "@/lib/domain/access/roles";
import { equipmentOf } from "@/lib/server/rows/equipment";
import { ok, refuse } from "@/lib/domain/refusal";
import { mayOpen } from "@/lib/domain/safety/check-sheet";
import { paths } from "@/lib/contracts/paths";
import { toDate } from "@/lib/server/clock";
import { command, NOT_ALLOWED, type Ctx } from "@/lib/server/command";
import { loadCheckSheet } from "@/lib/server/rows/check-sheet";
import { titleOf } from "@/lib/server/rows/firing-title";
import { isIn, othersIn } from "@/lib/server/rows/in-firing";
import { kilnOf } from "@/lib/server/rows/kiln-of";
import { lockFiring, NO_SUCH_FIRING, type LockedFiring } from "@/lib/server/rows/lock-firing";
import { tell } from "@/lib/server/tell";

/**
 * Marks a firing opened and unloaded. Refused while items for opening are open. When that is earlier
 * than booked, the rest of the kiln's time (after its turnaround) becomes free for others.
 */
export const markOpened = command({
  name: "mark-opened",
  needs: "open-firings",
  input: z.strictObject({ firingId: z.uuid() }),
  run: async (ctx, { firingId }) => {
    const { tx, now } = ctx;
    const firing = await lockFiring(tx, firingId);
    if (firing === null) return refuse(NO_SUCH_FIRING);
    const own = isIn(firing, ctx.who.memberId);
    if (!own && !can(ctx.who.roles, "manage-runs") && !ctx.who.roles.includes("assistant")) return refuse(NOT_ALLOWED);
    if (firing.status !== "started") {
      return refuse({ code: "wrong-status", message: `This firing is ${firing.status}; only a started one can be opened.` });
    }
    const sheet = await loadCheckSheet(tx, firingId);
    if (sheet === null) return refuse({ code: "no-check-sheet", message: "This firing has no check sheet." });
    const may = mayOpen(sheet.items, sheet.answers);
    if (!may.ok) return may;
    await tx.firing.updateMany({
      where: { firingId },
      data: { status: "opened", openedAt: toDate(now), expectedEnd: null, version: { increment: 1 } },
    });
    const freed = await freeTheRest(ctx, firing);
    await ctx.audit({ subject: "firing", subjectId: firingId, before: { status: "started" }, after: { status: "opened", freed } });
    const others = othersIn(firing, ctx.who.memberId);
    if (others.length > 0) {
      const text = `${titleOf(firing.plan)} was opened by ${ctx.who.name}.`;
      await tell(ctx, { to: others, kind: "firing", text, href: paths.firing(firingId) });
    }
    return ok({ firingId, freed });
  },
});

/** Gives back what is still to come: the kiln after its turnaround, the trolley and lift planned for later. */
async function freeTheRest({ tx, now }: Ctx, firing: LockedFiring): Promise<boolean> {
  const { firingId } = firing;
  const later = { firingId, standing: true, startsAt: { gt: toDate(now) } };
  await tx.booking.updateMany({ where: { ...later, purpose: { not: "kiln" } }, data: { standing: false } });
  await tx.lift.updateMany({ where: later, data: { standing: false } });
  const kiln = kilnOf(firing);
  if (kiln === undefined) return false;
  const equipment = equipmentOf(kiln.equipment);
  const turnaround = equipment.kind === "kiln" ? equipment.limits.turnaroundHours : 0;
  const end = toDate(now.add({ minutes: Math.max(1, Math.round(turnaround * 60)) }));
  if (!(end < kiln.endsAt) || !(end > kiln.startsAt)) return false;
  await tx.booking.updateMany({ where: { bookingId: kiln.bookingId }, data: { endsAt: end } });
  return true;
}
