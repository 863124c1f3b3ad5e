import { Temporal } from "temporal-polyfill";
import { createAskSchema } from "@/lib/contracts/runs";
import { ok, refuse } from "@/lib/domain/refusal";
import { showDate } from "@/lib/domain/time/show-time";
import { toDate } from "@/lib/server/clock";
import { command } from "@/lib/server/command";
import { castingOf, dateColumn, lockCasting } from "@/lib/server/rows/casting";
import { notLapsed } from "@/lib/server/rows/not-lapsed";
import { ALREADY_BOOKED } from "@/lib/server/runs/open-firing";
import { toJson } from "@/lib/server/runs/to-json";
import { wishedSpan } from "@/lib/server/runs/wished-span";

/** Keeps a member's wish for certain weeks of a kiln, for the manager to see and to settle. Moves nothing. */
export const createAsk = command({
  name: "create-ask",
  needs: "book-runs",
  input: createAskSchema,
  run: async (ctx, { castingId, kilnId, fromDate, importance, note }) => {
    const { tx, who, now } = ctx;
    const row = await lockCasting(ctx, castingId);
    if (!row.ok) return row;
    const booked = await tx.firingCasting.findFirst({ where: { castingId, standing: true, firing: notLapsed(now) } });
    if (booked !== null) return refuse(ALREADY_BOOKED);
    const open = await tx.ask.findFirst({ where: { castingId, status: "open" } });
    if (open !== null) return refuse(ALREADY_ASKED);
    const fromDay = Temporal.PlainDate.from(fromDate);
    const today = now.toZonedDateTimeISO(who.timeZone).toPlainDate();
    if (Temporal.PlainDate.compare(fromDay, today) < 0) {
      return refuse({ code: "in-the-past", field: "fromDate", value: fromDate, allowed: `${showDate(today)} or later`, message: `${showDate(fromDay)} is past; ask for ${showDate(today)} or later.` });
    }
    const casting = castingOf(row.value);
    const wish = await wishedSpan(ctx, casting.input, row.value.memberId, kilnId, fromDay);
    if (!wish.ok) return wish;
    const { plan, planInput, from, to } = wish.value;
    const { planId } = await tx.plan.create({
      data: { workshopId: who.workshopId, castingId, calculation: plan.calculation, inputs: toJson(planInput), outputs: toJson(plan), createdAt: toDate(now) },
    });
    const { askId } = await tx.ask.create({
      data: {
        workshopId: who.workshopId, castingId, memberId: row.value.memberId, planId, kilnId, importance, note,
        wishedFrom: toDate(from), wishedTo: toDate(to), neededBy: dateColumn(casting.neededBy),
      },
    });
    await ctx.audit({ subject: "ask", subjectId: askId, after: { castingId, kilnId, from: from.toString(), to: to.toString(), importance }, ...(note === "" ? {} : { reason: note }) });
    return ok({ askId, from: from.toString(), to: to.toString() });
  },
  onConstraint: async (constraint) => (constraint === "ask_open_once" ? ALREADY_ASKED : undefined),
});

const ALREADY_ASKED = { code: "already-asked", field: "castingId", message: "There is an open wish for this casting already. Withdraw it before you ask for other weeks." };
