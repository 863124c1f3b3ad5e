/**
 * What a settlement costs, stated once for everybody: days late count by the importance of the
 * casting; moving what people were told counts by how firmly they were told; an ask costs nothing to
 * move, for it stands nowhere. A firing that has started is not moved at any price.
 *
 * Points; one point is one day late of a casting of importance 1. The defaults are common practice,
 * no source; a workshop sets its own.
 */
export type SettlingWeights = {
  readonly perDayLate: number;
  /** Moving a booked run at all. */
  readonly perMove: number;
  /** Each day between the old loading day and the new one. */
  readonly perDayMoved: number;
  /** Another kiln than the one booked. */
  readonly perOtherKiln: number;
  /** A run whose mould is steamed, or whose date was promised, counts so many times as a booked one. */
  readonly promisedTimes: number;
  /** A change within the nearest two weeks, which people have arranged themselves for. */
  readonly perNearChange: number;
};

export const DEFAULT_WEIGHTS: SettlingWeights = { perDayLate: 1, perMove: 4, perDayMoved: 0.4, perOtherKiln: 3, promisedTimes: 3, perNearChange: 2 };

/** The days from today that count as near. */
export const NEAR_DAYS = 14;

/** The three ways to settle a clash, each of them with what it looks at first. */
export const AIMS = ["least-late", "fewest-moved", "quiet-weeks"] as const;
/** Or a whole season, in which nothing is looked at first. */
export type Aim = (typeof AIMS)[number] | "season";

/** How much more the thing looked at first weighs; the rest decides between settlements that are alike in it. */
const FIRST = 25;

/** The workshop's weights, turned towards one aim. */
export function weightsFor(aim: Aim, weights: SettlingWeights): SettlingWeights {
  switch (aim) {
    case "least-late":
      return { ...weights, perDayLate: FIRST * weights.perDayLate };
    case "fewest-moved":
      return { ...weights, perMove: FIRST * weights.perMove };
    case "quiet-weeks":
      return { ...weights, perNearChange: FIRST * weights.perNearChange };
    case "season":
      return weights;
    default:
      return aim satisfies never;
  }
}
