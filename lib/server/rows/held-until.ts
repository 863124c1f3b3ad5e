type Held = { readonly endsMs: number; readonly expectedMs: number | null; readonly unloadMs: number | null; readonly status: string };

/** A firing that is over its time and not opened still has a hot load in its kiln: nobody may plan on it within a day. Common practice, no source. */
const OVERDUE_HOLD_MS = 24 * 3_600_000;

/** Unloading and turnaround move with the hour at which the kiln is cool enough; an unopened kiln is never free at once. Epoch milliseconds. */
export function heldUntilMs({ endsMs, expectedMs, unloadMs, status }: Held, nowMs: number): number {
  const late = expectedMs === null ? 0 : expectedMs - (unloadMs ?? endsMs);
  const end = late > 0 ? endsMs + late : endsMs;
  return status === "started" && end <= nowMs ? nowMs + OVERDUE_HOLD_MS : end;
}
