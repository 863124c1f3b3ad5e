import type { Glass } from "@/lib/domain/glass/glass";
import { retardationNmPerCm } from "@/lib/domain/stress/retardation";
import type { StressLimits } from "@/lib/domain/stress/stress-level";
import { HOURS_PER_WEEK } from "@/lib/domain/units";
import { numberText } from "./number-text";

/** What a stress level allows, in MPa and, when the glass is known, as polarised light shows it. */
export function levelWords({ permanentMPa, passingMPa }: StressLimits, glass?: Pick<Glass, "stressOpticBrewster">): string {
  const seen = (MPa: number): string => (glass === undefined ? "" : ` (${numberText(retardationNmPerCm(glass, MPa))} nm/cm)`);
  return `At most ${permanentMPa} MPa${seen(permanentMPa)} for good, ${passingMPa} MPa${seen(passingMPa)} in passing`;
}

/** "saves 94 h (0.6 kiln-weeks) against careful" */
export function levelCostWords(hours: number, carefulHours: number): string {
  const more = Math.round(hours - carefulHours);
  if (more === 0) return "takes as long as careful";
  const size = `${numberText(Math.abs(more))} h (${numberText(Math.abs(more) / HOURS_PER_WEEK, 1)} kiln-weeks)`;
  return more > 0 ? `costs ${size} more than careful` : `saves ${size} against careful`;
}

/** A difference with its sign: "+0.6", "−1.2", "±0". */
export function signedText(value: number, decimals = 0): string {
  const size = numberText(Math.abs(value), decimals);
  if (Number(Math.abs(value).toFixed(decimals)) === 0) return `±${size}`;
  return `${value > 0 ? "+" : "\u2212"}${size}`;
}
