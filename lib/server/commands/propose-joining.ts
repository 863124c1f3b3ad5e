import { Temporal } from "temporal-polyfill";
import { ANSWER_DAYS, proposeJoiningSchema } from "@/lib/contracts/joining";
import { paths } from "@/lib/contracts/paths";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { showTime } from "@/lib/domain/time/show-time";
import { toDate, toInstant } from "@/lib/server/clock";
import { command, NOT_ALLOWED, type Ctx } from "@/lib/server/command";
import { agree } from "@/lib/server/joining/agree";
import { findCastingToJoin, joinedRun, type CastingToJoin, type JoinedRun } from "@/lib/server/joining/joined-run";
import { endLapsed, findJoining } from "@/lib/server/joining/joining-state";
import { writeJoinedPlan } from "@/lib/server/joining/write-joined-plan";
import { NO_SUCH_CASTING } from "@/lib/server/rows/casting";
import { titleOf } from "@/lib/server/rows/firing-title";
import { othersIn } from "@/lib/server/rows/in-firing";
import { lockFiring, NO_SUCH_FIRING, readFiring, type LockedFiring } from "@/lib/server/rows/lock-firing";
import { lockCalendar } from "@/lib/server/runs/lock-calendar";
import { tell } from "@/lib/server/tell";

/**
 * A member proposes that a casting of theirs joins a planned firing. Everybody in it is asked; nothing is booked
 * before the last has accepted. Where nobody else is in it, it is agreed at once.
 */
export const proposeJoining = command({
  name: "propose-joining",
  needs: "book-runs",
  input: proposeJoiningSchema,
  once: ({ requestKey }) => requestKey,
  run: async (ctx, { firingId, castingId, version }) => {
    const { tx, who, now } = ctx;
    // Only what is agreed at once books anything; joining plans takes a second, and nobody else should wait for it.
    const seen = await readFiring(tx, firingId);
    if (seen !== null && othersIn(seen, who.memberId).length === 0) await lockCalendar(ctx);
    await tx.$executeRaw`SELECT 1 FROM casting WHERE casting_id = ${castingId}::uuid FOR SHARE`;
    const casting = await findCastingToJoin(tx, castingId);
    if (casting === null) return refuse(NO_SUCH_CASTING);
    if (casting.memberId !== who.memberId) return refuse(NOT_ALLOWED);
    const firing = await lockFiring(tx, firingId);
    if (firing === null) return refuse(NO_SUCH_FIRING);
    if (firing.version !== version) return refuse({ code: "changed-meanwhile", message: "Somebody changed this firing since you opened the page. Look at it again." });
    await endLapsed(tx, { firingId }, now);
    await endLapsed(tx, { castingId }, now);
    const other = await otherOpen(ctx, firingId, casting);
    if (other !== undefined) return other;
    const joined = await joinedRun(ctx, firing, casting);
    if (!joined.ok) return joined;
    return write(ctx, firing, casting, joined.value);
  },
  onConstraint: async (constraint) => (constraint === "joining_open_of_firing" || constraint === "joining_open_of_casting" ? OTHER_OPEN : undefined),
});

const OTHER_OPEN = { code: "other-proposal", message: "Another proposal waits for its answers. Look at the firing again." };

async function otherOpen({ tx, who }: Ctx, firingId: string, { castingId, title }: CastingToJoin) {
  const open = await tx.joining.findFirst({ where: { status: "open", OR: [{ firingId }, { castingId }] }, include: { casting: { select: { title: true } }, member: { select: { name: true } } } });
  if (open === null) return undefined;
  const until = showTime(toInstant(open.expiresAt), who.timeZone);
  const what = open.castingId === castingId ? `${title} waits for the answers to a proposal already` : `${open.member.name}'s proposal for ${open.casting.title} waits for its answers first`;
  return refuse({ ...OTHER_OPEN, message: `${what}, until ${until} at the latest.`, data: { joiningId: open.joiningId } });
}

async function write(ctx: Ctx, firing: LockedFiring, casting: CastingToJoin, { plan, sharers, run, kiln }: JoinedRun): Promise<Outcome<{ readonly joiningId: string; readonly agreed: boolean }>> {
  const { tx, who, now } = ctx;
  const { firingId, version } = firing;
  const planId = await writeJoinedPlan(ctx, plan, sharers, firing.plan.castingId);
  const first = run.bookings.map(({ start }) => start).reduce((sooner, one) => (Temporal.Instant.compare(one, sooner) < 0 ? one : sooner));
  const days = now.add({ hours: 24 * ANSWER_DAYS });
  const expiresAt = toDate(Temporal.Instant.compare(first, now) > 0 && Temporal.Instant.compare(first, days) < 0 ? first : days);
  const { joiningId } = await tx.joining.create({
    data: { workshopId: who.workshopId, firingId, castingId: casting.castingId, memberId: who.memberId, planId, firingVersion: version, kilnFrom: toDate(run.kilnFrom), kilnTo: toDate(run.kilnTo), expiresAt, createdAt: toDate(now) },
  });
  await ctx.audit({ subject: "joining", subjectId: joiningId, after: { firingId, castingId: casting.castingId, planId, kilnTo: run.kilnTo.toString() } });
  const asked = othersIn(firing, who.memberId);
  if (asked.length === 0) {
    const joining = await findJoining(tx, joiningId);
    if (joining === null) throw new Error("a proposal vanished");
    const agreed = await agree(ctx, firing, joining);
    return agreed.ok ? ok({ joiningId, agreed: true }) : agreed;
  }
  const until = showTime(run.kilnTo, who.timeZone);
  const text = `${who.name} asks to add ${casting.title} to the firing of ${titleOf(firing.plan)} in ${kiln.name}. It would then hold the kiln until ${until}. Your answer is wanted by ${showTime(toInstant(expiresAt), who.timeZone)}.`;
  await tell(ctx, { to: asked, kind: "share", text, href: paths.joining(joiningId), until: toInstant(expiresAt) });
  return ok({ joiningId, agreed: false });
}
