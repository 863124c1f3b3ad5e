import { Temporal } from "temporal-polyfill";
import { addClosureSchema } from "@/lib/contracts/hours";
import { ok, refuse, type Problem } from "@/lib/domain/refusal";
import { showDate } from "@/lib/domain/time/show-time";
import { fromPlainDate, toPlainDate } from "@/lib/server/clock";
import { command } from "@/lib/server/command";
import type { Tx } from "@/lib/server/db";
import { countThinLifts } from "@/lib/server/rows/thin-lifts";
import { lockCalendar } from "@/lib/server/runs/lock-calendar";

const LONGEST_DAYS = 366;

/** Closes the workshop for whole local days, first and last included. Kilns run on; nobody loads or unloads. */
export const addClosure = command({
  name: "add-closure",
  needs: "manage-hours",
  input: addClosureSchema,
  run: async ({ tx, who, now, audit }, { from, to, reason }) => {
    await lockCalendar({ tx, who, now });
    const first = Temporal.PlainDate.from(from);
    const last = to === undefined || to === "" ? first : Temporal.PlainDate.from(to);
    const problem = wrongDays(first, last, now.toZonedDateTimeISO(who.timeZone).toPlainDate()) ?? (await overlapping(tx, first, last));
    if (problem !== undefined) return refuse(problem);
    const { closureId } = await tx.closure.create({
      data: { workshopId: who.workshopId, fromDate: fromPlainDate(first), toDate: fromPlainDate(last), reason },
    });
    await audit({ subject: "closure", subjectId: closureId, after: { from: first.toString(), to: last.toString() }, reason });
    return ok({ closureId, from: first.toString(), to: last.toString(), thinLifts: await countThinLifts(tx, who, now) });
  },
});

function wrongDays(first: Temporal.PlainDate, last: Temporal.PlainDate, today: Temporal.PlainDate): Problem | undefined {
  const asked = { field: "to", value: last.toString() };
  if (Temporal.PlainDate.compare(last, first) < 0) {
    return { ...asked, code: "end-before-start", allowed: `${first.toString()} or later`, message: `The last day ${showDate(last)} lies before the first day ${showDate(first)}.` };
  }
  if (Temporal.PlainDate.compare(last, today) < 0) {
    return { ...asked, code: "is-over", allowed: `${today.toString()} or later`, message: `The last day ${showDate(last)} ${last.year} is past; a closure must end today (${showDate(today)}) or later.` };
  }
  const days = first.until(last).days + 1;
  if (days <= LONGEST_DAYS) return undefined;
  return { ...asked, code: "out-of-range", allowed: `at most ${LONGEST_DAYS} days`, message: `The closure has ${days} days; it must have at most ${LONGEST_DAYS}.` };
}

async function overlapping(tx: Tx, first: Temporal.PlainDate, last: Temporal.PlainDate): Promise<Problem | undefined> {
  const others = await tx.closure.findMany({
    where: { fromDate: { lte: fromPlainDate(last) }, toDate: { gte: fromPlainDate(first) } },
    orderBy: { fromDate: "asc" },
  });
  if (others.length === 0) return undefined;
  const named = others.map((other) => `${showDate(toPlainDate(other.fromDate))} to ${showDate(toPlainDate(other.toDate))} (${other.reason})`);
  return { code: "closures-overlap", field: "from", value: first.toString(), message: `These days overlap a closure that is there: ${named.join("; ")}. Remove it first, or choose the days beside it.` };
}
