/**
 * How much a search may do, and which share of it is gone. The domain knows no clock: whoever calls
 * hands one in, or counts iterations, which is what makes a plan repeatable.
 */
export type Effort = {
  /** 0 at the start, 1 or more when the search must end. Never falls. */
  readonly spent: (iteration: number) => number;
};

export type Clock = () => number;

/** What a settlement may take in all, handed out in parts to the steps it is made of. */
export type Budget = {
  /** A share of the whole, counted from now. */
  readonly part: (share: number) => Effort;
  /** For work that ends by itself: a share of the time, or so many steps where iterations are counted. */
  readonly steps: (iterations: number, share: number) => Effort;
  /** True when nothing is left. */
  readonly isSpent: () => boolean;
};

/** A budget in iterations: the same plan every time. `stopped` ends it early. */
export function iterationBudget(limit: number, stopped: () => boolean = () => false): Budget {
  return {
    part: (share) => byIterations(Math.max(1, Math.round(limit * share)), stopped),
    steps: (iterations) => byIterations(iterations, stopped),
    isSpent: stopped,
  };
}

/** A budget in seconds by a clock that is handed in. No part goes beyond the whole. */
export function clockBudget(seconds: number, clock: Clock, stopped: () => boolean = () => false): Budget {
  const end = clock() + seconds;
  const over = (): boolean => stopped() || clock() >= end;
  return {
    part: (share) => byClock(Math.min(seconds * share, end - clock()), clock, over),
    steps: (_, share) => byClock(Math.min(seconds * share, end - clock()), clock, over),
    isSpent: over,
  };
}

/** Ends after a number of iterations, or when `stopped` says so; only the first repeats. */
export function byIterations(limit: number, stopped: () => boolean = () => false): Effort {
  return { spent: (iteration) => (iteration >= limit || stopped() ? 1 : iteration / limit) };
}

/** Ends when the clock (seconds) has moved on by `seconds`. Looks at it every time: one iteration may take long. */
export function byClock(seconds: number, clock: Clock, stopped: () => boolean = () => false): Effort {
  const start = clock();
  let share = 0;
  return {
    spent: () => (share = stopped() || !(seconds > 0) ? 1 : Math.max(share, (clock() - start) / seconds)),
  };
}
