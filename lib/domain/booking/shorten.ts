import { Temporal } from "temporal-polyfill";
import type { Kiln } from "@/lib/domain/booking/equipment";
import { laterEnd, type LaterEnd } from "@/lib/domain/booking/lengthen";
import type { RunQuestion } from "@/lib/domain/booking/run-question";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { showTime } from "@/lib/domain/time/show-time";

export type EarlierEndWish = {
  readonly kilnFrom: Temporal.Instant;
  /** When the kiln is free again by its booking. */
  readonly booked: Temporal.Instant;
  readonly wanted: Temporal.Instant;
  /** When the load is cool enough to unload, as somebody said or as its plan says. */
  readonly coolAt: Temporal.Instant;
};

/**
 * The first end at or after the wanted one at which people and a trolley can unload the kiln, before the booked
 * one. What is given back is never what the load still needs: a wish before it is cool and unloaded is refused
 * with the earliest that would do. Leave the firing's own bookings out of the question.
 */
export function earlierEnd(question: RunQuestion, kiln: Kiln, { kilnFrom, booked, wanted, coolAt }: EarlierEndWish): Outcome<LaterEnd> {
  const show = (at: Temporal.Instant): string => showTime(at, question.hours.timeZone);
  const earliest = laterEnd(question, kiln, { kilnFrom, notFreeBefore: coolAt, coolAt });
  if (!earliest.ok) return earliest;
  const from = earliest.value.kilnTo;
  if (Temporal.Instant.compare(from, booked) >= 0) {
    return refuse({ code: "nothing-to-give", field: "kilnTo", value: wanted.toString(), message: `${kiln.name} cannot be free before ${show(booked)}: its load is cool at ${show(coolAt)}, and then it has to be unloaded in staffed hours.` });
  }
  const allowed = `from ${show(from)} to before ${show(booked)}`;
  if (Temporal.Instant.compare(wanted, from) < 0) {
    return refuse({ code: "too-soon", field: "kilnTo", value: wanted.toString(), allowed, message: `${kiln.name} can be free at ${show(from)} at the earliest: its load is cool at ${show(coolAt)}, and then it has to be unloaded in staffed hours.`, data: { kilnTo: from.toString() } });
  }
  const end = laterEnd(question, kiln, { kilnFrom, notFreeBefore: wanted, coolAt });
  if (!end.ok) return end;
  if (Temporal.Instant.compare(end.value.kilnTo, booked) < 0) return ok(end.value);
  return refuse({ code: "not-shorter", field: "kilnTo", value: wanted.toString(), allowed, message: `${kiln.name} is booked until ${show(booked)}, and nobody can unload it for ${show(wanted)} any earlier. Choose a time ${allowed}.` });
}
