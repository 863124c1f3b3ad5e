import { Temporal } from "temporal-polyfill";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { showTime } from "@/lib/domain/time/show-time";
import { instantOfWallTime } from "@/lib/domain/time/wall-time";

/** A time out of service, half-open; no end: until further notice. */
export type OutageSpan = { readonly start: Temporal.Instant; readonly end: Temporal.Instant | null };

type Typed = {
  /** Wall-clock times as a form posts them; an empty `from` is now, an empty `to` means no end. */
  readonly from: string;
  readonly to: string;
  readonly now: Temporal.Instant;
  readonly timeZone: string;
};

/** Reads an outage as it was typed. Refuses an end that is not after the start, and one that is over. */
export function outageSpan({ from, to, now, timeZone }: Typed): Outcome<OutageSpan> {
  const start = from === "" ? ok(now) : instantOfWallTime(from, timeZone, "from");
  const end = to === "" ? ok(null) : instantOfWallTime(to, timeZone, "to");
  if (!start.ok) return end.ok ? start : refuse(...start.problems, ...end.problems);
  if (!end.ok) return end;
  if (end.value === null) return ok({ start: start.value, end: null });
  const asked = { field: "to", value: to };
  if (Temporal.Instant.compare(end.value, start.value) <= 0) {
    const after = showTime(start.value, timeZone);
    return refuse({ ...asked, code: "end-before-start", allowed: `after ${after}`, message: `The end ${showTime(end.value, timeZone)} must be after the start ${after}.` });
  }
  if (Temporal.Instant.compare(end.value, now) <= 0) {
    const after = showTime(now, timeZone);
    return refuse({ ...asked, code: "is-over", allowed: `after ${after}`, message: `The end ${showTime(end.value, timeZone)} is past; an outage that is over changes nothing. It must end after ${after}.` });
  }
  return ok({ start: start.value, end: end.value });
}
