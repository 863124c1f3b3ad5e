import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { inDigits } from "@/lib/domain/firing/figures";
import { HOURS_PER_WEEK } from "@/lib/domain/units";

/** Ageing elements and a mould that lags: a share of the program (common practice, no source). */
const LAG_SHARE = 0.03;
/** A restart after a look or a short power cut (common practice, no source). */
const RESTART_HOURS = 4;

/** What to reserve for a firing of these hours, with the margin and its reasons. Kiln-weeks of 168 h. */
export function reservationFor(firingHours: number): CastingPlan["reservation"] {
  const lag = LAG_SHARE * firingHours;
  const hours = Math.ceil(firingHours + lag + RESTART_HOURS);
  return {
    hours,
    kilnWeeks: Math.round((hours / HOURS_PER_WEEK) * 100) / 100,
    marginHours: hours - firingHours,
    marginWhy: `${inDigits(lag)} h because kilns run behind their program (3 %), ${RESTART_HOURS} h for a look or a short power cut, rounded up to a whole hour.`,
  };
}
