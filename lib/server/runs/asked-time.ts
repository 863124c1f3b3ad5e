import { Temporal } from "temporal-polyfill";
import { willDo } from "@/lib/domain/asking/will-do";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { showDate, showTime } from "@/lib/domain/time/show-time";
import type { Ctx } from "@/lib/server/command";
import { runForAsk } from "@/lib/server/runs/run-for-ask";

export type Asked = {
  readonly input: CastingInput;
  readonly ownerId: string;
  readonly kilnId: string | null;
  readonly fromDate: string;
  /** ISO days; null: by no date. */
  readonly neededBy: string | null;
  readonly lateDays: number;
  /** The date is the casting's own, and weeks of a kiln are asked for: they are meant, whatever the date. */
  readonly weeksMatter: boolean;
};

export type AskedTime = { readonly fromDay: Temporal.PlainDate; readonly neededBy: Temporal.PlainDate | null };

/** Reads the days of an ask. Refused when they are past or crossed, or cannot be kept even with every kiln free. */
export async function askedTime({ tx, who, now }: Ctx, asked: Asked): Promise<Outcome<AskedTime>> {
  const today = now.toZonedDateTimeISO(who.timeZone).toPlainDate();
  const fromDay = Temporal.PlainDate.from(asked.fromDate);
  const neededBy = asked.neededBy === null ? null : Temporal.PlainDate.from(asked.neededBy);
  if (Temporal.PlainDate.compare(fromDay, today) < 0) {
    return refuse({ code: "in-the-past", field: "fromDate", value: asked.fromDate, allowed: `${showDate(today)} or later`, message: `${showDate(fromDay)} is past; ask for ${showDate(today)} or later.` });
  }
  if (neededBy === null && asked.kilnId === null) {
    return refuse({ code: "no-date", field: "neededBy", allowed: "a date", message: "Say by when it is needed; without a kiln and weeks of it, the date says what would do." });
  }
  if (neededBy === null || asked.weeksMatter) return ok({ fromDay, neededBy });
  const dayStart = fromDay.toZonedDateTime(who.timeZone).toInstant();
  const notBefore = Temporal.Instant.compare(dayStart, now) < 0 ? now : dayStart;
  const { input, ownerId, kilnId, lateDays } = asked;
  const run = await runForAsk(tx, who, { input, ownerId, kilnId, notBefore, neededBy, turnedDown: [], whateverIsBooked: true });
  if (!run.ok) return run;
  if (willDo(run.value, { neededBy, lateDays, wishedFrom: null })) return ok({ fromDay, neededBy });
  const ready = run.value.readyAt.toZonedDateTimeISO(who.timeZone).toPlainDate();
  return refuse({
    code: "cannot-be-in-time", field: "neededBy", value: asked.neededBy, allowed: `${showDate(ready)} or later`,
    message: `Begun on ${showDate(fromDay)}, the piece is ready ${showTime(run.value.readyAt, who.timeZone)} at the soonest, even with every kiln free. Ask for ${showDate(ready)} or later, begin sooner, or say how many days later would still do.`,
    data: { readyAt: run.value.readyAt.toString() },
  });
}
