/** A point and what it costs. */
export type Tried = { readonly x: readonly number[]; readonly cost: number };

/**
 * The lowest point near a start, by the simplex of Nelder & Mead (Computer Journal 7 (1965) 308). `spread` is
 * the first simplex's edge along each axis. Ends when the corners' costs agree within `within` (relative) or
 * after `most` trials. Costs must be finite numbers; the same start always gives the same answer.
 */
export function descend(cost: (x: readonly number[]) => number, start: readonly number[], spread: readonly number[], within: number, most: number): Tried {
  let trials = 0;
  const tried = (x: readonly number[]): Tried => {
    trials += 1;
    return { x, cost: cost(x) };
  };
  let corners = [tried(start), ...spread.map((step, axis) => tried(start.map((value, i) => (i === axis ? value + step : value))))].sort(byCost);
  while (trials < most && !agree(corners, within)) {
    const rest = corners.slice(0, -1);
    const worst = corners[rest.length] as Tried;
    const centre = start.map((_, i) => rest.reduce((sum, { x }) => sum + (x[i] ?? 0), 0) / rest.length);
    const along = (t: number): Tried => tried(centre.map((value, i) => value + t * ((worst.x[i] ?? 0) - value)));
    const better = replacement(corners, worst, along);
    corners = (better === undefined ? shrunk(corners, tried) : [...rest, better]).sort(byCost);
  }
  return corners[0] as Tried;
}

const byCost = (a: Tried, b: Tried): number => a.cost - b.cost;

function agree(corners: readonly Tried[], within: number): boolean {
  const [best, worst] = [corners[0]?.cost ?? 0, corners.at(-1)?.cost ?? 0];
  return worst - best <= within * Math.abs(best);
}

/** Reflection, expansion or contraction of the worst corner; undefined when none of them is any better. */
function replacement(corners: readonly Tried[], worst: Tried, along: (t: number) => Tried): Tried | undefined {
  const reflected = along(-1);
  if (reflected.cost < (corners[0]?.cost ?? 0)) {
    const expanded = along(-2);
    return expanded.cost < reflected.cost ? expanded : reflected;
  }
  if (reflected.cost < (corners.at(-2)?.cost ?? 0)) return reflected;
  const contracted = along(reflected.cost < worst.cost ? -0.5 : 0.5);
  return contracted.cost < Math.min(reflected.cost, worst.cost) ? contracted : undefined;
}

function shrunk([best, ...others]: readonly Tried[], tried: (x: readonly number[]) => Tried): Tried[] {
  if (best === undefined) return [];
  return [best, ...others.map(({ x }) => tried(x.map((value, i) => ((best.x[i] ?? 0) + value) / 2)))];
}
