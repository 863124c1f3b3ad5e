import { createAskSchema } from "@/lib/contracts/runs";
import { ok, refuse } from "@/lib/domain/refusal";
import { fromPlainDate, toDate } from "@/lib/server/clock";
import { command, type Ctx } from "@/lib/server/command";
import { castingOf, lockCasting } from "@/lib/server/rows/casting";
import { notLapsed } from "@/lib/server/rows/not-lapsed";
import { askedTime } from "@/lib/server/runs/asked-time";
import { ALREADY_BOOKED } from "@/lib/server/runs/open-firing";
import { toJson } from "@/lib/server/runs/to-json";
import { wishedSpan } from "@/lib/server/runs/wished-span";

/** Keeps a member's wish for kiln time: weeks of one kiln, or any run in time. Moves nothing; time that becomes free is offered to it. */
export const createAsk = command({
  name: "create-ask",
  needs: "book-runs",
  input: createAskSchema,
  run: async (ctx, { castingId, kilnId = null, fromDate, neededBy, lateDays, importance, note }) => {
    const { tx, who, now } = ctx;
    const row = await lockCasting(ctx, castingId);
    if (!row.ok) return row;
    const booked = await tx.firingCasting.findFirst({ where: { castingId, standing: true, firing: notLapsed(now) } });
    if (booked !== null) return refuse(ALREADY_BOOKED);
    const open = await tx.ask.findFirst({ where: { castingId, status: "open" } });
    if (open !== null) return refuse(ALREADY_ASKED);
    const { memberId } = row.value;
    const casting = castingOf(row.value);
    const time = await askedTime(ctx, { input: casting.input, ownerId: memberId, kilnId, fromDate, neededBy: neededBy ?? casting.neededBy, lateDays, weeksMatter: neededBy === undefined && kilnId !== null });
    if (!time.ok) return time;
    const { fromDay, neededBy: by } = time.value;
    const wish = kilnId === null ? ok(null) : await wishedSpan(ctx, casting.input, memberId, kilnId, fromDay);
    if (!wish.ok) return wish;
    const weeks = wish.value === null ? {} : await weeksOf(ctx, castingId, kilnId, wish.value);
    const { askId } = await tx.ask.create({
      data: { workshopId: who.workshopId, castingId, memberId, importance, note, lateDays, notBefore: fromPlainDate(fromDay), neededBy: by === null ? null : fromPlainDate(by), createdAt: toDate(now), ...weeks },
    });
    const span = wish.value === null ? { from: fromDate, to: by?.toString() ?? null } : { from: wish.value.from.toString(), to: wish.value.to.toString() };
    await ctx.audit({ subject: "ask", subjectId: askId, after: { castingId, kilnId, ...span, importance }, ...(note === "" ? {} : { reason: note }) });
    return ok({ askId, ...span });
  },
  onConstraint: async (constraint) => (constraint === "ask_open_once" ? ALREADY_ASKED : undefined),
});

type Wish = Exclude<Extract<Awaited<ReturnType<typeof wishedSpan>>, { ok: true }>["value"], null>;

/** The weeks of a kiln that are wished for, with the plan they come from. */
async function weeksOf({ tx, who, now }: Ctx, castingId: string, kilnId: string | null, { plan, planInput, from, to }: Wish) {
  const { planId } = await tx.plan.create({
    data: { workshopId: who.workshopId, castingId, calculation: plan.calculation, inputs: toJson(planInput), outputs: toJson(plan), createdAt: toDate(now) },
  });
  return { planId, kilnId, wishedFrom: toDate(from), wishedTo: toDate(to) };
}

const ALREADY_ASKED = { code: "already-asked", field: "castingId", message: "There is an open ask for this casting already. Withdraw it before you ask for other weeks." };
