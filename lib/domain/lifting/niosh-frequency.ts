import { ok, refuse, type Outcome } from "@/lib/domain/refusal";

/**
 * "short": up to 1 h and a rest at least as long; "moderate": up to 2 h and a rest of at least 0.3
 * times the work; "long": up to 8 h.
 */
export type LiftingDuration = "short" | "moderate" | "long";

/** Below 75 cm of hand height at the origin the frequent rows fall to nothing sooner. */
const LOW_BELOW_CM = 75;

type Row = readonly [perMinute: number, shortLow: number, short: number, moderateLow: number, moderate: number, longLow: number, long: number];

/** NIOSH publication 94-110, Table 5, read from a copy. Columns in pairs: origin below 75 cm, at or above. */
const TABLE_5: readonly [Row, ...Row[]] = [
  [0.2, 1.0, 1.0, 0.95, 0.95, 0.85, 0.85],
  [0.5, 0.97, 0.97, 0.92, 0.92, 0.81, 0.81],
  [1, 0.94, 0.94, 0.88, 0.88, 0.75, 0.75],
  [2, 0.91, 0.91, 0.84, 0.84, 0.65, 0.65],
  [3, 0.88, 0.88, 0.79, 0.79, 0.55, 0.55],
  [4, 0.84, 0.84, 0.72, 0.72, 0.45, 0.45],
  [5, 0.8, 0.8, 0.6, 0.6, 0.35, 0.35],
  [6, 0.75, 0.75, 0.5, 0.5, 0.27, 0.27],
  [7, 0.7, 0.7, 0.42, 0.42, 0.22, 0.22],
  [8, 0.6, 0.6, 0.35, 0.35, 0.18, 0.18],
  [9, 0.52, 0.52, 0.3, 0.3, 0, 0.15],
  [10, 0.45, 0.45, 0.26, 0.26, 0, 0.13],
  [11, 0.41, 0.41, 0, 0.23, 0, 0],
  [12, 0.37, 0.37, 0, 0.21, 0, 0],
  [13, 0, 0.34, 0, 0, 0, 0],
  [14, 0, 0.31, 0, 0, 0, 0],
  [15, 0, 0.28, 0, 0, 0, 0],
];

const COLUMN = { short: [1, 2], moderate: [3, 4], long: [5, 6] } as const;

/**
 * The frequency multiplier, linear between the rows of Table 5. `originCm` is the hands' height at the
 * origin of the lift. Refuses a frequency whose row in the table is zero, or lies between the last
 * usable row and a zero: the method allows no lifting there.
 * @example frequencyMultiplier(3, "short", 56) // { ok: true, value: 0.88 }
 */
export function frequencyMultiplier(perMinute: number, duration: LiftingDuration, originCm: number): Outcome<number> {
  const column = COLUMN[duration][originCm < LOW_BELOW_CM ? 0 : 1];
  const usable = TABLE_5.filter((row) => row[column] > 0);
  const fastest = usable.at(-1)?.[0] ?? 0;
  if (!(perMinute >= 0 && perMinute <= fastest)) {
    return refuse({
      code: "out-of-range",
      message: `liftsPerMinute is ${perMinute}; for this duration and height the method allows 0 to ${fastest}.`,
      field: "liftsPerMinute",
      value: perMinute,
      allowed: `0 to ${fastest}`,
    });
  }
  const upper = usable.find((row) => row[0] >= perMinute) ?? TABLE_5[0];
  const lower = usable.findLast((row) => row[0] <= perMinute) ?? upper;
  if (upper[0] === lower[0]) return ok(upper[column]);
  const share = (perMinute - lower[0]) / (upper[0] - lower[0]);
  return ok(lower[column] + share * (upper[column] - lower[column]));
}

/**
 * Lifts per minute averaged over 15 minutes, for work that pauses within each quarter of an hour
 * (NIOSH 94-110, special frequency adjustment). Holds up to 15 lifts a minute.
 * @example adjustedFrequency(10, 8) // 5.33
 */
export function adjustedFrequency(perMinute: number, minutesOfFifteen: number): Outcome<number> {
  if (!(perMinute >= 0 && perMinute <= 15)) {
    return refuse({
      code: "out-of-range",
      message: `liftsPerMinute is ${perMinute}; the adjustment holds from 0 to 15.`,
      field: "liftsPerMinute",
      value: perMinute,
      allowed: "0 to 15",
    });
  }
  if (!(minutesOfFifteen >= 0 && minutesOfFifteen <= 15)) {
    return refuse({
      code: "out-of-range",
      message: `minutesOfFifteen is ${minutesOfFifteen}; allowed is 0 to 15 minutes of lifting in each quarter of an hour.`,
      field: "minutesOfFifteen",
      value: minutesOfFifteen,
      allowed: "0 to 15",
    });
  }
  return ok((perMinute * minutesOfFifteen) / 15);
}
