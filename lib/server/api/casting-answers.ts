import { Temporal } from "temporal-polyfill";
import type { CastingsAnswer } from "@/lib/contracts/api/castings-answer";
import type { Outcome, Problem } from "@/lib/domain/refusal";
import type { CastingsScreen } from "@/lib/server/queries/castings";
import type { Who } from "@/lib/server/who";

export function castingsAnswer({ castings }: CastingsScreen, who: Who): CastingsAnswer {
  return {
    castings: castings.map(({ castingId, title, owner, memberId, neededBy, step, atMs, overdue, firingId, kilnName }) => ({
      castingId, title, owner, mine: memberId === who.memberId, neededBy, firingId, kilnName,
      next: { step, at: atMs === null ? null : Temporal.Instant.fromEpochMilliseconds(atMs).toString(), overdue },
    })),
  };
}

const OF_CASTING = /^(title|neededBy|input|Idempotency-Key|requestKey)\b/;

/** The calculation names fields of its own input; in a described casting that stands below `input`. */
export function belowInput<T>(outcome: Outcome<T>): Outcome<T> {
  return renamed(outcome, (field) => (OF_CASTING.test(field) ? field : `input.${field}`));
}

/** Where the body is the input itself, nothing stands below it. */
export function aboveInput<T>(outcome: Outcome<T>): Outcome<T> {
  return renamed(outcome, (field) => field.replace(/^input\./, ""));
}

function renamed<T>(outcome: Outcome<T>, name: (field: string) => string): Outcome<T> {
  if (outcome.ok) return outcome;
  const [first, ...rest] = outcome.problems;
  const one = (problem: Problem): Problem => (problem.field === undefined ? problem : { ...problem, field: name(problem.field) });
  return { ok: false, problems: [one(first), ...rest.map(one)] };
}
