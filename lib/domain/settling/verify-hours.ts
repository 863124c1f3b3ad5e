import type { HourPlacement, HourProblem } from "@/lib/domain/settling/hours/hour-problem";

/**
 * Checks a plan in hours from the problem alone, sharing nothing with the search: every ask once, on
 * a kiln it fits, not before its release, in whole hours, nothing overlapping. One sentence a fault.
 */
export function verifyHours({ kilns, asks, taken }: HourProblem, placements: readonly HourPlacement[]): string[] {
  const faults: string[] = [];
  asks.forEach(({ id }, ask) => {
    const times = placements.filter((placement) => placement.ask === ask).length;
    if (times !== 1) faults.push(`Ask ${id} is placed ${times} times.`);
  });
  for (const { ask, kiln, fromH, toH } of placements) {
    const wanted = asks[ask];
    const hours = wanted?.hours[kiln] ?? 0;
    if (wanted === undefined || !(hours > 0)) faults.push(`Ask ${wanted?.id ?? ask} stands on kiln ${kilns[kiln] ?? kiln}, which it does not fit.`);
    else if (toH - fromH !== hours) faults.push(`Ask ${wanted.id} has ${toH - fromH} hours instead of ${hours}.`);
    else if (!Number.isInteger(fromH)) faults.push(`Ask ${wanted.id} starts at ${fromH}, which is no whole hour.`);
    else if (fromH < wanted.releaseH) faults.push(`Ask ${wanted.id} starts at ${fromH}, before its release at ${wanted.releaseH}.`);
  }
  kilns.forEach((name, kiln) => {
    const held = [...placements.filter((placement) => placement.kiln === kiln), ...taken[kiln]!].sort((a, b) => a.fromH - b.fromH);
    held.slice(1).forEach((next, i) => {
      if (next.fromH < held[i]!.toH) faults.push(`Kiln ${name} is held twice at hour ${next.fromH}.`);
    });
  });
  return faults;
}
