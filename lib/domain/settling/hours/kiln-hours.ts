import type { Taken } from "@/lib/domain/settling/hours/hour-problem";

/**
 * The first start at or after `t` at which a kiln is free for `hours` at a stretch. `taken` is sorted
 * and disjoint; nothing is taken after its last entry, so there always is one.
 */
export function firstFreeStart(taken: readonly Taken[], t: number, hours: number): number {
  let start = t;
  for (let i = 0; i < taken.length; i++) {
    const { fromH, toH } = taken[i]!;
    if (fromH >= start + hours) break;
    if (toH > start) start = toH;
  }
  return start;
}
