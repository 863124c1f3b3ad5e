import type { FiringRecord } from "@/lib/domain/firing/learn-margin";

/** How one firing went, all in elapsed hours from its start. */
export type PastFiring = {
  readonly programHours: number;
  readonly usualMarginHours: number;
  /** What was held for it when it was booked: its program and its margin. */
  readonly heldHours: number;
  readonly openedAfterHours: number;
  /** Opened by the end of the unloading it was booked with, which nobody put off after the start. */
  readonly inTime: boolean;
  /** When somebody said it would be cool enough to unload, if anybody did; the last word counts. */
  readonly coolAfterHours: number | null;
};

/**
 * What a firing says about its kiln. A kiln is opened when there are people, so the time until then is not all the
 * kiln's: a firing needed no longer than until it was said to be cool; where nobody said so, one that was opened in
 * time needed no more than was held for it, and one that was opened later needed all of its time. Without this,
 * margins would grow by the waiting for staffed hours that they themselves cause.
 */
export function firingRecord(past: PastFiring): FiringRecord {
  const { programHours, usualMarginHours, heldHours, openedAfterHours, inTime, coolAfterHours } = past;
  const neededHours = coolAfterHours ?? (inTime ? heldHours : openedAfterHours);
  return { programHours, usualMarginHours, actualHours: Math.min(openedAfterHours, neededHours) };
}
