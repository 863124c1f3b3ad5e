import { readNumber } from "@/lib/contracts/form-number";
import type { StressLimits } from "@/lib/domain/stress/stress-level";

/** What was typed as own limits, whether or not they are chosen now; null until both are numbers. */
export function typedLimits(permanent: string, passing: string): StressLimits | null {
  const [one, other] = [readNumber("stress.permanentMPa", permanent, { label: "" }), readNumber("stress.passingMPa", passing, { label: "" })];
  if (!one.ok || !other.ok || one.value === undefined || other.value === undefined) return null;
  return { permanentMPa: one.value, passingMPa: other.value };
}
