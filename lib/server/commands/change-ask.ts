import { changeAskSchema } from "@/lib/contracts/runs";
import { ok, refuse } from "@/lib/domain/refusal";
import { fromPlainDate, toDate, toPlainDate } from "@/lib/server/clock";
import { command, NOT_ALLOWED } from "@/lib/server/command";
import { castingOf } from "@/lib/server/rows/casting";
import { askedTime } from "@/lib/server/runs/asked-time";
import { lockOpenAsk } from "@/lib/server/runs/open-ask";
import { wishedSpan } from "@/lib/server/runs/wished-span";

/** A member changes the days of their own ask, what hangs on it and the note. How long it has waited stays. */
export const changeAsk = command({
  name: "change-ask",
  needs: "book-runs",
  input: changeAskSchema,
  run: async (ctx, { askId, fromDate, neededBy, lateDays, importance, note }) => {
    const { tx, who } = ctx;
    const ask = await lockOpenAsk(tx, askId);
    if (!ask.ok) return ask;
    const before = ask.value;
    if (before.memberId !== who.memberId) return refuse(NOT_ALLOWED);
    const offer = await tx.firing.findFirst({ where: { askId, status: "held" } });
    if (offer !== null) return refuse({ code: "offered", field: "askId", message: `Time is offered for ${before.casting.title} now. Take it or decline it before you change the ask.`, data: { firingId: offer.firingId } });
    const { input } = castingOf(before.casting);
    const time = await askedTime(ctx, { input, ownerId: before.memberId, kilnId: before.kilnId, fromDate, neededBy: neededBy ?? null, lateDays, weeksMatter: false });
    if (!time.ok) return time;
    const { fromDay, neededBy: by } = time.value;
    const wish = before.kilnId === null ? ok(null) : await wishedSpan(ctx, input, before.memberId, before.kilnId, fromDay);
    if (!wish.ok) return wish;
    const weeks = wish.value === null ? {} : { wishedFrom: toDate(wish.value.from), wishedTo: toDate(wish.value.to) };
    await tx.ask.updateMany({ where: { askId }, data: { notBefore: fromPlainDate(fromDay), neededBy: by === null ? null : fromPlainDate(by), lateDays, importance, note, ...weeks } });
    const said = (row: { readonly notBefore: Date | null; readonly neededBy: Date | null; readonly lateDays: number; readonly importance: number }) => ({
      notBefore: row.notBefore === null ? null : toPlainDate(row.notBefore).toString(),
      neededBy: row.neededBy === null ? null : toPlainDate(row.neededBy).toString(),
      lateDays: row.lateDays,
      importance: row.importance,
    });
    await ctx.audit({ subject: "ask", subjectId: askId, before: said(before), after: { notBefore: fromDate, neededBy: neededBy ?? null, lateDays, importance }, ...(note === "" ? {} : { reason: note }) });
    return ok({ askId });
  },
});
