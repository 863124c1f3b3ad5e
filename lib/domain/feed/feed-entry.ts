import type { Temporal } from "temporal-polyfill";

/** Half-open instants, or whole local days with both included. */
export type FeedTime =
  | { readonly start: Temporal.Instant; readonly end: Temporal.Instant }
  | { readonly fromDay: Temporal.PlainDate; readonly toDay: Temporal.PlainDate };

/** What a calendar program is told of one booking, lift, outage or closure. */
export type FeedEntry = FeedTime & {
  /** The same in every feed and over every move. */
  readonly id: string;
  /** How often it has changed; a calendar program believes the copy with the higher count. */
  readonly sequence: number;
  readonly changedAt: Temporal.Instant;
  readonly cancelled: boolean;
  readonly title: string;
  readonly place: string;
  /** More of it, in lines. */
  readonly text: string;
  /** The page it stands on; null where there is none. */
  readonly path: string | null;
  /** Whether it takes up somebody's time: a kiln that cools for two weeks does not. */
  readonly busy: boolean;
};

/** What stands stays in a feed for this long after it is over, so that last month can be looked up. Common practice, no source. */
export const PAST_DAYS = 90;

/**
 * What was cancelled is sent as cancelled until this long after it would have been over. Until then somebody may still
 * have it before them, on a telephone that was off or a computer that only now wakes up; a month more takes in who was
 * away. Later it misleads nobody. Common practice, no source.
 */
export const CANCELLED_DAYS = 30;

/** Whether an entry that ends then is still told now. */
export function isStillTold(end: Temporal.Instant, cancelled: boolean, now: Temporal.Instant): boolean {
  return end.until(now).total("hours") < (cancelled ? CANCELLED_DAYS : PAST_DAYS) * 24;
}

type Counted = { readonly entryId: string; readonly sequence: number; readonly standing: boolean };

/** Of all rows that have stood for each entry, the one that does, or did last. */
export function currentRows<T extends Counted>(rows: readonly T[]): readonly T[] {
  const current = new Map<string, T>();
  for (const row of rows) {
    const other = current.get(row.entryId);
    if (other === undefined || isLater(row, other)) current.set(row.entryId, row);
  }
  return [...current.values()];
}

function isLater(row: Counted, other: Counted): boolean {
  return row.standing === other.standing ? row.sequence > other.sequence : row.standing;
}
