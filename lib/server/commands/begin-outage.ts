import { Temporal } from "temporal-polyfill";
import { beginOutageSchema } from "@/lib/contracts/equipment";
import { paths } from "@/lib/contracts/paths";
import { ok, refuse, type Problem } from "@/lib/domain/refusal";
import { showTime } from "@/lib/domain/time/show-time";
import { outageSpan, type OutageSpan } from "@/lib/domain/time/outage-span";
import { toDate, toInstant } from "@/lib/server/clock";
import { command, type Ctx } from "@/lib/server/command";
import { findEquipment, NO_SUCH_EQUIPMENT } from "@/lib/server/rows/find-equipment";
import { touchedFirings, type TouchedFiring } from "@/lib/server/rows/touched-firings";
import { lockCalendar } from "@/lib/server/runs/lock-calendar";
import { tell } from "@/lib/server/tell";

/**
 * Takes equipment out of service for a time. Allowed over standing bookings, because a kiln does not ask before it
 * breaks: the runs it touches stay, show as clashes, and their members are told.
 */
export const beginOutage = command({
  name: "begin-outage",
  needs: "manage-equipment",
  input: beginOutageSchema,
  run: async (ctx, { equipmentId, from, to, reason }) => {
    const { tx, who, now } = ctx;
    await lockCalendar({ tx, who, now });
    const row = await findEquipment(tx, equipmentId);
    if (row === null) return refuse(NO_SUCH_EQUIPMENT);
    const span = outageSpan({ from, to, now, timeZone: who.timeZone });
    if (!span.ok) return span;
    const problem = row.retiredAt === null ? await alreadyOut(ctx, equipmentId, span.value) : retired(row.name);
    if (problem !== undefined) return refuse(problem);
    const { start, end } = span.value;
    const { outageId } = await tx.outage.create({
      data: { workshopId: who.workshopId, equipmentId, startsAt: toDate(start), endsAt: end === null ? null : toDate(end), reason, createdAt: toDate(now) },
    });
    await ctx.audit({ subject: "equipment", subjectId: equipmentId, after: { name: row.name, outageId, from: start.toString(), to: end?.toString() ?? null }, reason });
    const touched = await touchedFirings(tx, equipmentId, laterOf(start, now), end);
    await tellMembers(ctx, row.name, touched, reason);
    return ok({ outageId, name: row.name, touched });
  },
});

async function alreadyOut({ tx, who }: Ctx, equipmentId: string, { start, end }: OutageSpan): Promise<Problem | undefined> {
  const other = await tx.outage.findFirst({
    where: {
      equipmentId,
      withdrawnAt: null,
      OR: [{ endsAt: null }, { endsAt: { gt: toDate(start) } }],
      ...(end === null ? {} : { startsAt: { lt: toDate(end) } }),
    },
  });
  if (other === null) return undefined;
  const until = other.endsAt === null ? "until further notice" : `until ${showTime(toInstant(other.endsAt), who.timeZone)}`;
  const during = `from ${showTime(toInstant(other.startsAt), who.timeZone)} ${until}`;
  return { code: "already-out", field: "from", message: `It is out of service already ${during} (${other.reason}). End that outage first, or enter the time beside it.` };
}

async function tellMembers(ctx: Ctx, name: string, touched: readonly TouchedFiring[], reason: string): Promise<void> {
  const firings = new Map(touched.map((one) => [one.firingId, one]));
  for (const one of firings.values()) {
    if (one.memberId === ctx.who.memberId) continue;
    const text = `${name} is out of service during your run of ${one.title}; ${ctx.who.name} will move or release it.`;
    await tell(ctx, { to: [one.memberId], kind: "clash", text, reason, href: paths.firing(one.firingId) });
  }
}

function retired(name: string): Problem {
  return { code: "retired", message: `${name} is retired; it cannot go out of service.` };
}

function laterOf(a: Temporal.Instant, b: Temporal.Instant): Temporal.Instant {
  return Temporal.Instant.compare(a, b) > 0 ? a : b;
}
