import { z } from "zod";
import { can } from "@/lib/domain/access/roles";
import { mayStartAt } from "@/lib/domain/booking/start-window";
import { ok, refuse, type Refusal } from "@/lib/domain/refusal";
import { mayStart } from "@/lib/domain/safety/check-sheet";
import { toDate, toInstant } from "@/lib/server/clock";
import { command, NOT_ALLOWED, type Ctx } from "@/lib/server/command";
import { paths } from "@/lib/contracts/paths";
import { loadCheckSheet } from "@/lib/server/rows/check-sheet";
import { PLAN_TITLE, titleOf } from "@/lib/server/rows/firing-title";
import { isIn, othersIn } from "@/lib/server/rows/in-firing";
import { kilnOf } from "@/lib/server/rows/kiln-of";
import { lockFiring, NO_SUCH_FIRING, type LockedFiring } from "@/lib/server/rows/lock-firing";
import { lapseJoining } from "@/lib/server/runs/lapse-joining";
import { tell } from "@/lib/server/tell";

/** Starts a firing. Refused, naming them, while blocking items of its check sheet are open. */
export const startFiring = command({
  name: "start-firing",
  needs: "start-firings",
  input: z.strictObject({ firingId: z.uuid() }),
  run: async (ctx, { firingId }) => {
    const { tx, now } = ctx;
    const firing = await lockFiring(tx, firingId);
    if (firing === null) return refuse(NO_SUCH_FIRING);
    if (!mayStartThis(ctx, firing)) return refuse(NOT_ALLOWED);
    if (firing.status === "held") {
      return refuse({ code: "only-held", field: "firingId", message: "This run is only held. Confirm it first; then its firing can be started." });
    }
    if (firing.status !== "planned") {
      return refuse({ code: "wrong-status", message: `This firing is ${firing.status}; only a planned one can be started.` });
    }
    const standsInTheWay = (await startWindow(ctx, firing)) ?? (await anotherInside(ctx, firing));
    if (standsInTheWay !== undefined) return standsInTheWay;
    await tx.$executeRaw`SELECT 1 FROM check_sheet WHERE firing_id = ${firingId}::uuid FOR UPDATE`;
    const sheet = await loadCheckSheet(tx, firingId);
    if (sheet === null) return refuse({ code: "no-check-sheet", message: "This firing has no check sheet; it cannot be started." });
    const may = mayStart(sheet.items, sheet.answers);
    if (!may.ok) return may;
    await lapseJoining(ctx, firing, "the firing started");
    await tx.firing.updateMany({
      where: { firingId },
      data: { status: "started", startedAt: toDate(now), version: { increment: 1 } },
    });
    await ctx.audit({ subject: "firing", subjectId: firingId, before: { status: "planned" }, after: { status: "started" } });
    const others = othersIn(firing, ctx.who.memberId);
    if (others.length > 0) {
      const text = `${ctx.who.name} started the firing of ${titleOf(firing.plan)}.`;
      await tell(ctx, { to: others, kind: "firing", text, href: paths.firing(firingId) });
    }
    return ok({ firingId });
  },
});

/** A member starts a firing with a casting of theirs in it; assistants and managers start anybody's. */
function mayStartThis({ who }: Ctx, firing: LockedFiring): boolean {
  return isIn(firing, who.memberId) || can(who.roles, "manage-runs") || who.roles.includes("assistant");
}

async function startWindow({ who, now }: Ctx, firing: LockedFiring): Promise<Refusal | undefined> {
  const kiln = kilnOf(firing);
  if (kiln === undefined) return refuse({ code: "not-booked", message: "This firing has no kiln booked." });
  const outcome = mayStartAt({ start: toInstant(kiln.startsAt), end: toInstant(kiln.endsAt) }, now, who.timeZone);
  return outcome.ok ? undefined : outcome;
}

/** Two firings cannot stand in one kiln, whatever the calendar says: the first must be opened before. */
async function anotherInside({ tx }: Ctx, firing: LockedFiring): Promise<Refusal | undefined> {
  const kilnId = kilnOf(firing)?.equipmentId ?? "";
  const inside = await tx.firing.findFirst({
    where: { status: "started", bookings: { some: { purpose: "kiln", standing: true, equipmentId: kilnId } } },
    include: { plan: { select: PLAN_TITLE } },
  });
  if (inside === null) return undefined;
  return refuse({
    code: "kiln-not-empty",
    message: `${titleOf(inside.plan)} is still firing in this kiln; it must be opened first.`,
    data: { firingId: inside.firingId },
  });
}
