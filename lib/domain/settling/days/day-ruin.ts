import { takeOut, type DayPlan } from "@/lib/domain/settling/days/day-plan";
import type { Random } from "@/lib/domain/settling/random";

const MOST_KILNS = 4;
const LONGEST_STRING = 5;

/**
 * Takes strings of neighbouring runs out of a few kilns around one moment, as in hours: kilns are
 * drawn among those that take the first run, so that what comes out can change places.
 */
export function ruinDays(plan: DayPlan, random: Random, onTouch: (kiln: number) => void): number[] {
  const { tables } = plan;
  const removed: number[] = [];
  const seed = random.below(tables.jobs);
  if (plan.kilnOf[seed]! < 0) return removed;
  const first = plan.kilnOf[seed]!;
  const moment = plan.start[seed]!;
  const others = tables.fits[seed]!;
  const kilns = 1 + random.below(MOST_KILNS);
  for (let turn = 0; turn < kilns; turn++) {
    const kiln = turn === 0 ? first : others[random.below(others.length)]!;
    const order = plan.orders[kiln]!;
    if (order.length === 0 || (turn > 0 && kiln === first)) continue;
    const middle = turn === 0 ? order.indexOf(seed) : positionAt(plan, order, moment);
    const length = 1 + random.below(Math.min(LONGEST_STRING, order.length));
    const from = Math.max(0, Math.min(order.length - length, middle - random.below(length)));
    const string = order.slice(from, from + length);
    onTouch(kiln);
    for (const job of string) {
      takeOut(plan, job);
      removed.push(job);
    }
  }
  return removed;
}

function positionAt(plan: DayPlan, order: readonly number[], moment: number): number {
  const at = order.findIndex((job) => plan.end[job]! > moment);
  return at < 0 ? order.length - 1 : at;
}
