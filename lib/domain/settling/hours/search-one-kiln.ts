import type { Effort } from "@/lib/domain/settling/effort";
import { Dynasearch } from "@/lib/domain/settling/hours/dynasearch";
import type { OneKiln } from "@/lib/domain/settling/hours/one-kiln";
import type { Random } from "@/lib/domain/settling/random";

/** After this many kicks in a row without a better order, the walk goes on from the best one. */
const PATIENCE = 40;

/**
 * Iterated dynasearch on one kiln: descend, kick the order at a few places, descend again. Gives the
 * best order found; stops at `goal()`, a cost known to be the least possible.
 */
export function searchOneKiln(one: OneKiln, random: Random, effort: Effort, onBetter: (order: Int32Array, cost: number) => void, goal: () => number = () => 0): Int32Array {
  const search = new Dynasearch(one);
  let best: Int32Array = Int32Array.from({ length: one.count }, (_, ask) => ask);
  let bestCost = Infinity;
  for (const start of [byDue(one), byUrgency(one)]) {
    const cost = search.descend(start);
    if (cost < bestCost) {
      best = start;
      bestCost = cost;
    }
  }
  onBetter(best, bestCost);
  if (one.count < 3) return best;
  let current: Int32Array = Int32Array.from(best);
  let currentCost = bestCost;
  let since = 0;
  for (let kick = 0; bestCost > goal() && effort.spent(kick) < 1; kick++) {
    const next = Int32Array.from(current);
    kickOrder(next, random);
    const cost = search.descend(next);
    if (cost < bestCost - 1e-9) {
      best = Int32Array.from(next);
      bestCost = cost;
      since = 0;
      onBetter(best, bestCost);
    } else since++;
    if (cost <= currentCost * (1 + 0.01 * random.next())) {
      current = next;
      currentCost = cost;
    }
    if (since % PATIENCE === PATIENCE - 1) {
      current = Int32Array.from(best);
      currentCost = bestCost;
    }
  }
  return best;
}

/** Exchanges a few pairs that stand near each other. */
function kickOrder(order: Int32Array, random: Random): void {
  const swaps = 3 + random.below(4);
  for (let i = 0; i < swaps; i++) {
    const from = random.below(order.length);
    const to = Math.min(order.length - 1, Math.max(0, from + random.below(2 * Math.min(20, order.length)) - Math.min(20, order.length)));
    const kept = order[from]!;
    order[from] = order[to]!;
    order[to] = kept;
  }
}

function byDue({ count, due }: OneKiln): Int32Array {
  return Int32Array.from({ length: count }, (_, ask) => ask).sort((a, b) => due[a]! - due[b]! || a - b);
}

/** Always fires next what costs most per hour of delay among what cannot wait; the rest by its slack. */
function byUrgency(one: OneKiln): Int32Array {
  const { count, hours, due, weight } = one;
  const left = Array.from({ length: count }, (_, ask) => ask);
  const mean = hours.reduce((sum, length) => sum + length, 0) / count;
  const order = new Int32Array(count);
  let time = 0;
  for (let i = 0; i < count; i++) {
    let first = 0;
    let most = -1;
    left.forEach((ask, at) => {
      const slack = Math.max(0, due[ask]! - hours[ask]! - time);
      const urgency = (weight[ask]! / hours[ask]!) * Math.exp(-slack / (2 * mean));
      if (urgency > most) {
        most = urgency;
        first = at;
      }
    });
    const [ask = 0] = left.splice(first, 1);
    order[i] = ask;
    time += hours[ask]!;
  }
  return order;
}

