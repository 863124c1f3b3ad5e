import { removeAsk, type Sequences } from "@/lib/domain/settling/hours/sequences";
import type { Random } from "@/lib/domain/settling/random";

const MOST_KILNS = 4;
const LONGEST_STRING = 5;

/**
 * Takes strings of neighbouring asks out of a few kilns around one moment: the idea of string
 * removal of Christiaens & Vanden Berghe (Transportation Science 54, 2020), with time in place of
 * distance. Kilns are drawn among those that take the first ask. Gives the asks taken out.
 */
export function ruinHours(plan: Sequences, fits: readonly Int32Array[], random: Random, onTouch: (kiln: number) => void): number[] {
  const seed = random.below(plan.asks);
  const first = plan.kilnOf[seed]!;
  const at = plan.kilns[first]!.asks.indexOf(seed);
  const moment = plan.kilns[first]!.starts[at]!;
  const others = fits[seed]!;
  const removed: number[] = [];
  const kilns = 1 + random.below(MOST_KILNS);
  for (let turn = 0; turn < kilns; turn++) {
    const kiln = turn === 0 ? first : others[random.below(others.length)]!;
    const { count } = plan.kilns[kiln]!;
    if (count === 0 || (turn > 0 && kiln === first)) continue;
    const middle = turn === 0 ? at : positionAt(plan, kiln, moment);
    const length = 1 + random.below(Math.min(LONGEST_STRING, count));
    const from = Math.max(0, Math.min(count - length, middle - random.below(length)));
    onTouch(kiln);
    for (let i = 0; i < length; i++) {
      removed.push(plan.kilns[kiln]!.asks[from]!);
      removeAsk(plan, kiln, from);
    }
  }
  return removed;
}

/** The position whose firing starts at or after a moment, or the last one. */
function positionAt(plan: Sequences, kiln: number, moment: number): number {
  const { starts, count } = plan.kilns[kiln]!;
  let low = 0;
  let high = count - 1;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (starts[middle]! < moment) low = middle + 1;
    else high = middle;
  }
  return low;
}
