import { insertAsk, insertionCost, ownCost, type Sequences } from "@/lib/domain/settling/hours/sequences";
import { shuffle, type Random } from "@/lib/domain/settling/random";

/** One place in a hundred is overlooked, which keeps the search from going in circles. */
const BLINK = 0.01;

/** Puts every ask back where it costs least, one after another. `fits[ask]` are the kilns that take it. */
export function recreateHours(plan: Sequences, fits: readonly Int32Array[], asks: readonly number[], random: Random, onTouch: (kiln: number) => void): void {
  for (const ask of asks) {
    const kilns = fits[ask]!;
    let best = Infinity;
    let bestKiln = -1;
    let bestPosition = 0;
    const offset = random.below(kilns.length);
    for (let turn = 0; turn < kilns.length; turn++) {
      const kiln = kilns[(turn + offset) % kilns.length]!;
      const { count } = plan.kilns[kiln]!;
      for (let position = 0; position <= count; position++) {
        if (ownCost(plan, kiln, position, ask) >= best) break;
        if (bestKiln >= 0 && random.next() < BLINK) continue;
        const cost = insertionCost(plan, kiln, position, ask, best);
        if (cost >= best) continue;
        best = cost;
        bestKiln = kiln;
        bestPosition = position;
        if (best === 0) break;
      }
      if (best === 0) break;
    }
    onTouch(bestKiln);
    insertAsk(plan, bestKiln, bestPosition, ask);
  }
}

/** An order to put asks back in: by chance, heaviest first, soonest due first, first released, or longest first. */
export function orderHours({ weight, due, release, hours, kilns }: Sequences, asks: number[], random: Random): number[] {
  shuffle(asks, asks.length, random);
  const kind = random.below(8);
  if (kind === 0) asks.sort((a, b) => weight[b]! - weight[a]!);
  else if (kind === 1) asks.sort((a, b) => due[a]! - due[b]!);
  else if (kind === 2) asks.sort((a, b) => release[a]! - release[b]!);
  else if (kind === 3) {
    const longest = (ask: number): number => hours.subarray(ask * kilns.length, (ask + 1) * kilns.length).reduce((most, one) => Math.max(most, one), 0);
    asks.sort((a, b) => longest(b) - longest(a));
  }
  return asks;
}
