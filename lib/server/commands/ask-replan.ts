import { Temporal } from "temporal-polyfill";
import { askReplanSchema, MOST_MONTHS } from "@/lib/contracts/replan";
import { ok, refuse, type Refusal } from "@/lib/domain/refusal";
import { showDayWithYear } from "@/lib/domain/time/show-time";
import { fromPlainDate } from "@/lib/server/clock";
import { command } from "@/lib/server/command";
import { isStale, replanAges } from "@/lib/server/rows/replan";

/** Asks for a whole season to be planned anew, in the background. Nothing moves before its plan is accepted. */
export const askReplan = command({
  name: "ask-replan",
  needs: "settle-clashes",
  input: askReplanSchema,
  run: async (ctx, { from, to, seconds }) => {
    const { tx, who, now } = ctx;
    const [first, last] = [Temporal.PlainDate.from(from), Temporal.PlainDate.from(to)];
    const refused = spanProblem(first, last, now.toZonedDateTimeISO(who.timeZone).toPlainDate());
    if (refused !== undefined) return refused;
    const [running] = await tx.replan.findMany({ where: { state: { in: ["waiting", "searching", "placing"] } } });
    if (running !== undefined) {
      if (!isStale(running.state, await replanAges(tx, running.replanId))) return refuse(RUNNING);
      await tx.replan.updateMany({ where: { replanId: running.replanId }, data: { state: "lost" } });
    }
    const { replanId } = await tx.replan.create({ data: { workshopId: who.workshopId, memberId: who.memberId, fromDay: fromPlainDate(first), toDay: fromPlainDate(last), seconds } });
    await ctx.audit({ subject: "replan", subjectId: replanId, after: { from, to, seconds } });
    return ok({ replanId });
  },
  onConstraint: async (constraint) => (constraint === "replan_once" ? RUNNING : undefined),
});

const RUNNING = { code: "already-running", message: "A season is being planned already. Stop it first, or wait for its plan." };

function spanProblem(first: Temporal.PlainDate, last: Temporal.PlainDate, today: Temporal.PlainDate): Refusal | undefined {
  const until = first.add({ months: MOST_MONTHS });
  if (Temporal.PlainDate.compare(first, today) < 0) return refuse({ code: "in-the-past", field: "from", value: first.toString(), message: `The season begins on ${showDayWithYear(first)}, which is past; today is the first day it can.` });
  if (Temporal.PlainDate.compare(last, first) <= 0) return refuse({ code: "out-of-range", field: "to", value: last.toString(), message: `The season ends on ${showDayWithYear(last)}, and must end after it begins.` });
  if (Temporal.PlainDate.compare(last, until) > 0) return refuse({ code: "out-of-range", field: "to", value: last.toString(), allowed: until.toString(), message: `The season ends on ${showDayWithYear(last)}; it can be ${MOST_MONTHS} months long, up to ${showDayWithYear(until)}.` });
  return undefined;
}
