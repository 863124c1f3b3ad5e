/**
 * For how many days of 24 hours something is kept once it has served; the castings, runs, plans, answers and the
 * record are kept for ever. Migrations 0011_kept and 0018_spent_links hold the same.
 */
export const KEPT_DAYS = {
  /** The answer to a request with a key: after that the key is a new one. */
  receipt: 30,
  /** A mail, from when it was sent or given up. */
  mail: 90,
  /** A notice, from when it was read; an unread one stays. */
  notice: 90,
  /** An invitation or a new password's link, from when it was used, withdrawn or ran out. */
  link: 90,
} as const;
