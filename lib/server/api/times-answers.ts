import type { MoveTimesAnswer, TimesAnswer } from "@/lib/contracts/api/times-answer";
import { ok, refusalOf, refuse, type Outcome } from "@/lib/domain/refusal";
import type { FindTimeScreen } from "@/lib/server/queries/find-time";
import type { MoveTimesScreen } from "@/lib/server/queries/move-times";
import { ALREADY_BOOKED } from "@/lib/server/runs/open-firing";
import type { OfferedRun, Offers } from "@/lib/server/runs/run-offers";

/** Where a casting's run could stand; null when the casting is not this person's to book. */
export function timesAnswer(screen: FindTimeScreen | null): Outcome<TimesAnswer> | null {
  if (screen === null) return null;
  const { castingId, neededBy, firingId, withdrawn, title } = screen;
  if (withdrawn) return refuse({ code: "withdrawn", field: "castingId", value: castingId, message: `${title} was withdrawn; a withdrawn casting cannot be booked.` });
  if (firingId !== null) return refuse({ ...ALREADY_BOOKED, value: castingId, data: { firingId } });
  return refusalOf(screen.problems) ?? ok({ castingId, neededBy, ...offersAnswer(screen.offers) });
}

/** Where a run could be moved to; null when it is not this person's to move. */
export function moveTimesAnswer(screen: MoveTimesScreen | null): Outcome<MoveTimesAnswer> | null {
  if (screen === null) return null;
  const { firingId, version, neededBy, status, title } = screen;
  if (status !== "planned") return refuse({ code: "not-planned", field: "firingId", value: firingId, message: `The firing of ${title} is ${status}; only a planned one is moved.` });
  return refusalOf(screen.problems) ?? ok({ firingId, version, neededBy, ...offersAnswer(screen.offers) });
}

function offersAnswer({ kilns, refusals }: Offers): Pick<TimesAnswer, "kilns" | "refusals"> {
  return {
    refusals: [...refusals],
    kilns: kilns.map(({ kilnId, kilnName, reservation: { hours, kilnWeeks }, runs, whyNot }) => ({ kilnId, kilnName, reservation: { hours, kilnWeeks }, runs: runs.map(runAnswer), whyNot })),
  };
}

function runAnswer({ kilnFrom, kilnTo, readyAt, steamFrom, daysLate, parts, lifts }: OfferedRun) {
  return {
    kilnFrom, kilnTo, readyAt, steamFrom, daysLate,
    parts: parts.map(({ purpose, equipmentName, from, to, hands }) => ({ purpose, equipmentName, from, to, hands })),
    lifts: lifts.map(({ what, from, to, kg, hands, trolleyName, flag, hot, wet }) => ({ what, from, to, kg, hands, trolleyName, flag, hot, wet })),
  };
}
