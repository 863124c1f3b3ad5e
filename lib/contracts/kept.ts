/**
 * For how many days of 24 hours something is kept once it has served; the castings, runs, plans, answers and the
 * record are kept for ever. Migration 0011_kept holds the same.
 */
export const KEPT_DAYS = {
  /** The answer to a request with a key: after that the key is a new one. */
  receipt: 30,
  /** A mail, from when it was sent or given up. */
  mail: 90,
  /** A notice, from when it was read; an unread one stays. */
  notice: 90,
} as const;
