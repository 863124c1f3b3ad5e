import type { CoolingRamp } from "@/lib/domain/stress/cooling-task";
import type { Cooled } from "./joined-soak";

/** A ramp of the joined way down and whose limit it is. */
export type GovernedRamp = CoolingRamp & { readonly governor: Cooled };

/** How fast a casting alone would cool where its glass has this temperature, K/h. */
export function ownRateAt({ own }: Cooled, celsius: number): number {
  return [...own.slow, own.last].find(({ toC }) => celsius > toC)?.rateKPerH ?? own.last.rateKPerH;
}

/** Whose glass cools slowest at a temperature. */
export function governorAt(sharers: readonly Cooled[], celsius: number): Cooled {
  return sharers.reduce((slowest, one) => (ownRateAt(one, celsius) < ownRateAt(slowest, celsius) ? one : slowest));
}

/**
 * From the soak down, at every temperature no faster than the slowest of the castings would go alone: slow
 * ramps, and the last one. Each casting speeds up on its way, so the slowest of all does too.
 */
export function slowestRamps(sharers: readonly Cooled[], soakC: number): { readonly slow: readonly GovernedRamp[]; readonly last: GovernedRamp } {
  const endC = Math.min(...sharers.map(({ own }) => own.last.toC));
  const corners = [...new Set(sharers.flatMap(({ own }) => own.slow.map(({ toC }) => toC)))].filter((toC) => toC < soakC).sort((a, b) => b - a);
  const ramps: GovernedRamp[] = [];
  let fromC = soakC;
  for (const toC of [...corners, endC]) {
    const governor = governorAt(sharers, (fromC + toC) / 2);
    const rateKPerH = ownRateAt(governor, (fromC + toC) / 2);
    const before = ramps.at(-1);
    if (before !== undefined && before.rateKPerH === rateKPerH && before.governor === governor) ramps[ramps.length - 1] = { ...before, toC };
    else ramps.push({ toC, rateKPerH, governor });
    fromC = toC;
  }
  const last = ramps.pop();
  if (last === undefined) throw new Error("a way down without any ramp");
  return { slow: ramps, last };
}
