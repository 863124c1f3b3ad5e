import { LEFT_OUT, ownOver, setOrder, type DayPlan } from "@/lib/domain/settling/days/day-plan";
import { KilnTiming } from "@/lib/domain/settling/days/kiln-timing";
import type { OpToll } from "@/lib/domain/settling/days/op-toll";
import type { DayTables } from "@/lib/domain/settling/days/day-tables";
import { SteamerRoom } from "@/lib/domain/settling/days/steamers";
import type { Random } from "@/lib/domain/settling/random";

/** One kiln in thirty is overlooked, which keeps the search from going in circles. */
const BLINK = 1 / 30;

/** Prices and makes changes of a plan; holds the tables of every kiln between changes. */
export class DayWorkbench {
  private readonly timings: readonly KilnTiming[];
  private readonly steamers: SteamerRoom;

  constructor(private readonly tables: DayTables, private readonly toll: OpToll) {
    this.timings = Array.from({ length: tables.kilns }, (_, kiln) => new KilnTiming(tables, kiln, toll));
    this.steamers = new SteamerRoom(tables);
  }

  /** Puts every job where it costs least, one after another; a job without a place is left out. */
  insertAll(plan: DayPlan, jobs: readonly number[], random: Random, onTouch: (kiln: number) => void): void {
    for (const job of jobs) {
      let least = LEFT_OUT;
      let bestKiln = -1;
      let bestPosition = 0;
      const fits = this.tables.fits[job]!;
      const offset = random.below(fits.length);
      for (let turn = 0; turn < fits.length; turn++) {
        const kiln = fits[(turn + offset) % fits.length]!;
        if (bestKiln >= 0 && random.next() < BLINK) continue;
        const timing = this.timings[kiln]!;
        timing.prepareRoughly(plan, this.steamers);
        const now = plan.kilnCost[kiln]! + (plan.over > 0 ? this.toll.of(ownOver(plan, kiln)) : 0);
        const { total, position } = timing.cheapestPlace(plan, job, least + now);
        if (position < 0) continue;
        least = total - now;
        bestKiln = kiln;
        bestPosition = position;
      }
      if (bestKiln < 0) continue;
      onTouch(bestKiln);
      this.retime(plan, bestKiln, plan.orders[bestKiln]!.toSpliced(bestPosition, 0, job), random);
    }
  }

  /** Gives a kiln an order with its best days; leaves it as it is, and says false, when there are none. */
  retime(plan: DayPlan, kiln: number, order: readonly number[], random: Random): boolean {
    const timing = this.timings[kiln]!;
    timing.prepare(plan, this.steamers, order);
    const starts = timing.starts(random);
    if (starts === undefined) return false;
    const before = plan.orders[kiln]!;
    const startsBefore = before.map((job) => plan.start[job]!);
    setOrder(plan, kiln, order, starts);
    // The tables allow each load its steamer for itself; several that move at once may be too many.
    if (this.steamers.suffices(plan.loadsAt)) return true;
    setOrder(plan, kiln, before, startsBefore);
    return false;
  }
}
