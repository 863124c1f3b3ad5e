import { answerJoiningSchema } from "@/lib/contracts/joining";
import { paths } from "@/lib/contracts/paths";
import { ok, refuse } from "@/lib/domain/refusal";
import { toDate } from "@/lib/server/clock";
import { command, NOT_ALLOWED, type Ctx } from "@/lib/server/command";
import { agree } from "@/lib/server/joining/agree";
import type { JoiningRow } from "@/lib/server/joining/joining-state";
import { lockJoining, stillOpen } from "@/lib/server/joining/lock-joining";
import { titleOf } from "@/lib/server/rows/firing-title";
import { isIn, peopleIn } from "@/lib/server/rows/in-firing";
import type { LockedFiring } from "@/lib/server/rows/lock-firing";
import { lockCalendar } from "@/lib/server/runs/lock-calendar";
import { tell } from "@/lib/server/tell";

/** Somebody in a firing accepts or declines that a casting joins it. One no ends it; the last yes books it. */
export const answerJoining = command({
  name: "answer-joining",
  needs: "book-runs",
  input: answerJoiningSchema,
  run: async (ctx, { joiningId, accepts }) => {
    const { tx, who, now } = ctx;
    await lockCalendar(ctx);
    const locked = await lockJoining(ctx, joiningId);
    if (!locked.ok) return locked;
    const { firing, joining } = locked.value;
    if (!isIn(firing, who.memberId)) return refuse({ ...NOT_ALLOWED, message: "Only who has a casting in this firing answers for it." });
    const open = stillOpen(joining, now);
    if (!open.ok) return open;
    if (joining.answers.some(({ memberId }) => memberId === who.memberId)) return refuse(ANSWERED);
    await tx.joiningAnswer.create({ data: { workshopId: who.workshopId, joiningId, memberId: who.memberId, accepts, at: toDate(now) } });
    await ctx.audit({ subject: "joining", subjectId: joiningId, after: { accepts } });
    if (!accepts) return decline(ctx, firing, joining);
    const yes = new Set([who.memberId, joining.memberId, ...joining.answers.map(({ memberId }) => memberId)]);
    if (!peopleIn(firing).every((one) => yes.has(one))) return ok({ joiningId, status: "open" });
    const agreed = await agree(ctx, firing, joining);
    return agreed.ok ? ok({ joiningId, status: "agreed" }) : agreed;
  },
  onConstraint: async (constraint) => {
    if (constraint === "joining_answer_pkey") return ANSWERED;
    return constraint === "booking_no_overlap" ? TAKEN : undefined;
  },
});

const ANSWERED = { code: "already-answered", field: "joiningId", message: "You have answered this already; an answer stays as it was given." };
const TAKEN = { code: "taken", field: "joiningId", message: "Somebody else booked part of the joined run a moment ago. Look at the proposal again." };

async function decline(ctx: Ctx, firing: LockedFiring, { joiningId, memberId, casting }: JoiningRow) {
  const { tx, who, now } = ctx;
  await tx.joining.updateMany({ where: { joiningId, status: "open" }, data: { status: "declined", endedAt: toDate(now), endedBecause: `${who.name} declined.` } });
  const to = [...peopleIn(firing), memberId].filter((one) => one !== who.memberId);
  await tell(ctx, { to, kind: "share", text: `${who.name} declined that ${casting.title} joins ${titleOf(firing.plan)}. The firing stays as it is.`, href: paths.joining(joiningId) });
  return ok({ joiningId, status: "declined" });
}
