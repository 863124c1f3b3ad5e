import { Temporal } from "temporal-polyfill";
import type { Kiln } from "@/lib/domain/booking/equipment";
import { planFor, runNeeds } from "@/lib/domain/booking/run-needs";
import type { RunQuestion } from "@/lib/domain/booking/run-question";
import { nextLift, searchSpace } from "@/lib/domain/booking/search-space";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { MS_PER_HOUR, MS_PER_MINUTE } from "@/lib/domain/time/interval";
import { showTime } from "@/lib/domain/time/show-time";

/** The later end of a firing: the unloading that goes with it, and when the kiln is free again. */
export type LaterEnd = {
  readonly unloadFrom: Temporal.Instant;
  readonly unloadTo: Temporal.Instant;
  readonly trolleyId: string | null;
  readonly kilnTo: Temporal.Instant;
};

export type LaterEndWish = {
  readonly kilnFrom: Temporal.Instant;
  readonly notFreeBefore: Temporal.Instant;
  /** When the load is expected to be cool enough to unload, if anybody has said so; it is not unloaded before. */
  readonly coolAt: Temporal.Instant | null;
};

/**
 * The first end at or after `notFreeBefore` at which the load is cool and people and a trolley can
 * unload the kiln. Leave the firing's own bookings out of the question. Refused, naming the holder,
 * when somebody else has the kiln by then.
 */
export function laterEnd(question: RunQuestion, kiln: Kiln, { kilnFrom, notFreeBefore, coolAt }: LaterEndWish): Outcome<LaterEnd> {
  const { needs, problems } = runNeeds(question, planFor(question, kiln));
  if (needs === null) return refuse({ code: "lacking", message: problems.join(" ") });
  const space = searchSpace(question);
  const turnaround = kiln.limits.turnaroundHours * MS_PER_HOUR;
  const from = notFreeBefore.epochMilliseconds - turnaround - needs.unload.minutes * MS_PER_MINUTE;
  const unload = nextLift(space, needs.unload, Math.max(from, space.notBefore, coolAt?.epochMilliseconds ?? from));
  if (unload === null) {
    return refuse({ code: "no-unloading", field: "kilnTo", message: `Nobody can unload ${kiln.name} in staffed hours after ${show(question, notFreeBefore)}.` });
  }
  const kilnTo = Temporal.Instant.fromEpochMilliseconds(Math.ceil(unload.end + turnaround));
  const next = question.busy
    .filter((busy) => busy.equipmentId === kiln.equipmentId)
    .map((busy) => ({ ...busy, start: busy.loadingFrom ?? busy.start }))
    .filter((busy) => isBefore(busy.start, kilnTo) && isBefore(kilnFrom, busy.end))
    .sort((a, b) => Temporal.Instant.compare(a.start, b.start))[0];
  if (next !== undefined) {
    return refuse({
      code: "kiln-taken",
      field: "kilnTo",
      message: `${kiln.name} would be free again at ${show(question, kilnTo)}, but ${next.holder ?? "somebody else"} has it from ${show(question, next.start)}. That comes first.`,
      data: { equipmentId: kiln.equipmentId, from: next.start.toString() },
    });
  }
  return ok({ unloadFrom: instant(unload.start), unloadTo: instant(unload.end), trolleyId: unload.trolleyId, kilnTo });
}

function isBefore(a: Temporal.Instant, b: Temporal.Instant): boolean {
  return Temporal.Instant.compare(a, b) < 0;
}

function instant(epochMs: number): Temporal.Instant {
  return Temporal.Instant.fromEpochMilliseconds(Math.ceil(epochMs));
}

function show(question: RunQuestion, at: Temporal.Instant): string {
  return showTime(at, question.hours.timeZone);
}
