import { Temporal } from "temporal-polyfill";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";

const FORM = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2})?$/;

/**
 * The instant at which the workshop's wall clock shows a time such as "2027-03-14T09:30", as a form posts it.
 * A time that the clocks skip in spring is refused, naming what the clock shows instead; a time that they show
 * twice in autumn is its first showing.
 */
export function instantOfWallTime(text: string, timeZone: string, field: string): Outcome<Temporal.Instant> {
  const wall = plainDateTime(text);
  if (wall === undefined) {
    return refuse({
      code: "not-a-time", field, value: text, allowed: "a date and time such as 2027-03-14T09:30",
      message: `"${text}" is not a date and time; it must be written like 2027-03-14T09:30.`,
    });
  }
  const zoned = wall.toZonedDateTime(timeZone, { disambiguation: "compatible" });
  if (zoned.toPlainDateTime().equals(wall)) return ok(zoned.toInstant());
  const shown = `${clock(wall)} on ${wall.toPlainDate().toString()}`;
  return refuse({
    code: "no-such-time", field, value: text, allowed: `${clock(zoned.toPlainDateTime())} or later, or before the clocks change`,
    message: `${shown} does not exist in ${timeZone}: the clocks go forward over it. ${clock(zoned.toPlainDateTime())} is the same distance past the change.`,
  });
}

function plainDateTime(text: string): Temporal.PlainDateTime | undefined {
  if (!FORM.test(text)) return undefined;
  try {
    return Temporal.PlainDateTime.from(text, { overflow: "reject" });
  } catch {
    return undefined;
  }
}

function clock(time: Temporal.PlainDateTime): string {
  return `${String(time.hour).padStart(2, "0")}:${String(time.minute).padStart(2, "0")}`;
}
