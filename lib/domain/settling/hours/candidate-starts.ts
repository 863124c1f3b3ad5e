import type { HourProblem, Taken } from "@/lib/domain/settling/hours/hour-problem";

/**
 * An hour after which pricing kiln time gains nothing. Any choice gives a valid bound, because time
 * beyond it is free and no cost falls with time; this one covers all firings one after another, as
 * far as they are spread evenly, twice.
 */
export function latestUsefulStart({ kilns, asks, taken }: HourProblem): number {
  const latest = (values: readonly number[]): number => values.reduce((most, value) => Math.max(most, value), 0);
  const work = asks.reduce((sum, { hours }) => sum + hours.reduce((least, length) => (length > 0 && length < least ? length : least), Infinity), 0);
  const mean = work / Math.max(1, kilns.length);
  const longest = latest(asks.map(({ hours }) => latest(hours)));
  const gaps = latest(taken.map((stretches) => stretches.reduce((sum, { fromH, toH }) => sum + toH - fromH, 0)));
  return Math.ceil(latest(asks.map(({ releaseH }) => releaseH)) + gaps + longest + (kilns.length === 1 ? mean : 2 * mean));
}

/**
 * The starts at which the priced cost of an ask on a kiln can be least. With prices per hour that is
 * every free hour; with coarser steps cost and price are straight between the corners, so only the
 * corners count: where start or end meets a step, the due hour, and the ends of free time.
 */
export function candidateStarts(problem: HourProblem, ask: number, kiln: number, steps: number, stepH: number): Int32Array {
  const { releaseH, dueH, hours } = problem.asks[ask]!;
  const length = hours[kiln]!;
  const taken = problem.taken[kiln]!;
  const last = Math.max(releaseH, steps * stepH);
  const found: number[] = [];
  for (const [from, to] of freeStarts(taken, releaseH, length, last)) {
    if (stepH === 1) for (let start = from; start <= to; start++) found.push(start);
    else {
      found.push(from, to);
      if (dueH - length > from && dueH - length < to) found.push(dueH - length);
      for (let corner = Math.ceil(from / stepH) * stepH; corner <= to; corner += stepH) found.push(corner);
      for (let corner = Math.ceil((from + length) / stepH) * stepH - length; corner <= to; corner += stepH) found.push(corner);
    }
  }
  return Int32Array.from(new Set(found)).sort();
}

/** Ranges of starts, both ends included, at which nothing taken is in the way; up to one start at or after `last`. */
function freeStarts(taken: readonly Taken[], release: number, length: number, last: number): [number, number][] {
  const ranges: [number, number][] = [];
  let from = release;
  for (const { fromH, toH } of taken) {
    if (fromH - length >= from) ranges.push([from, fromH - length]);
    from = Math.max(from, toH);
  }
  ranges.push([from, Math.max(from, last)]);
  return ranges;
}
