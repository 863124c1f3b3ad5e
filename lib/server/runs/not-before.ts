import { Temporal } from "temporal-polyfill";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { showDate } from "@/lib/domain/time/show-time";

/** "Not before" as a day of the workshop's calendar; without one, now. A day that is past is refused. */
export function readNotBefore(day: string | undefined, now: Temporal.Instant, timeZone: string): Outcome<Temporal.Instant> {
  if (day === undefined || day === "") return ok(now);
  const date = plainDate(day);
  const today = now.toZonedDateTimeISO(timeZone).toPlainDate();
  if (date === undefined) {
    return refuse({ code: "not-a-date", field: "notBefore", value: day, allowed: "a date like 2027-03-28", message: `"${day}" is not a date.` });
  }
  if (Temporal.PlainDate.compare(date, today) < 0) {
    return refuse({
      code: "in-the-past",
      field: "notBefore",
      value: day,
      allowed: `${showDate(today)} or later`,
      message: `${showDate(date)} is past; choose ${showDate(today)} or later.`,
    });
  }
  const start = date.toZonedDateTime(timeZone).toInstant();
  return ok(Temporal.Instant.compare(start, now) < 0 ? now : start);
}

function plainDate(text: string): Temporal.PlainDate | undefined {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return undefined;
  try {
    return Temporal.PlainDate.from(text, { overflow: "reject" });
  } catch {
    return undefined;
  }
}
