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
  if (outcome.ok) return outcome;
  const [first, ...rest] = outcome.problems;
  return { ok: false, problems: [below(first), ...rest.map(below)] };
}

function below(problem: Problem): Problem {
  const { field } = problem;
  return field === undefined || OF_CASTING.test(field) ? problem : { ...problem, field: `input.${field}` };
}
