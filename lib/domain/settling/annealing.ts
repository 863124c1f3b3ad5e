import type { Random } from "@/lib/domain/settling/random";

/**
 * Simulated annealing by a threshold: a worse plan is taken when it is worse by less than
 * temperature × −ln(u). The temperature falls from `hot` to `cold` with the share of effort spent.
 */
export type Annealing = { readonly hot: number; readonly cold: number };

export function takes(change: number, spent: number, { hot, cold }: Annealing, random: Random): boolean {
  if (change <= 0) return true;
  const temperature = hot * Math.pow(cold / hot, spent);
  return change < -temperature * Math.log(random.next());
}
