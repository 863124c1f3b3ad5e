/** The rule in words, as it stands on every screen that shows a share. */
export const SPLIT_RULE =
  "Everybody pays the same part of what a firing of their own, at the same time in this kiln, would have cost. So all save the same share, and nobody pays more than alone.";

/** One person's part, in whole smallest coins. */
export type CostShare = { readonly id: string; readonly alone: number; readonly pays: number };

/**
 * Splits the cost of a shared firing in proportion to what each would have paid alone, all in whole smallest
 * coins. The shares add up to `total` exactly: what rounding down leaves goes coin by coin to those whose
 * share lost most by it, by id where they lost the same. Undefined where the firing costs more than all of
 * them apart, since somebody would then pay more than alone.
 */
export function splitCost(total: number, alone: readonly { readonly id: string; readonly alone: number }[]): readonly CostShare[] | undefined {
  const apart = alone.reduce((sum, one) => sum + one.alone, 0);
  if (!(total <= apart)) return undefined;
  if (apart === 0) return alone.map((one) => ({ ...one, pays: 0 }));
  const exact = alone.map((one) => ({ ...one, share: (total * one.alone) / apart, pays: Math.floor((total * one.alone) / apart) }));
  let rest = total - exact.reduce((sum, one) => sum + one.pays, 0);
  const lost = [...exact].filter((one) => one.pays < one.alone).sort((a, b) => b.share - b.pays - (a.share - a.pays) || (a.id < b.id ? -1 : 1));
  const more = new Set<string>();
  for (const { id } of lost) {
    if (!(rest > 0)) break;
    more.add(id);
    rest -= 1;
  }
  return exact.map(({ id, alone: own, pays }) => ({ id, alone: own, pays: pays + (more.has(id) ? 1 : 0) }));
}
