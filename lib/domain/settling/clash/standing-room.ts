import type { ClashGround, MovableRun } from "@/lib/domain/settling/clash/clash-ground";

/** Days on which something cannot stand as it does. */
export type UnsettledDays = {
  /** Lifts for which too few people are there. */
  readonly lifts: ReadonlySet<number>;
  /** Kilns that heat together above the limit. */
  readonly power: ReadonlySet<number>;
};

/**
 * A ground in days is coarser than the calendar, which is kept by the quarter hour. What stands there without a clash
 * is possible, whatever the sums of its days say; so each day has room for at least that. On days that clash there is
 * less room than what stands needs.
 */
export function withStandingRoom(ground: ClashGround, { lifts, power }: UnsettledDays): ClashGround {
  const days = ground.handsOn.length;
  const [ops, kilowatts, steamed] = [zeros(days), zeros(days), zeros(days)];
  for (const run of ground.runs) {
    const { standing } = run;
    if (standing === null) continue;
    add(ops, standing.day, 1);
    add(ops, unloadDay(ground, run, standing), 1);
    const kw = ground.kilns.find(({ kilnId }) => kilnId === standing.kilnId)?.powerKw ?? 0;
    for (let day = standing.day; day < standing.day + run.heatingDays; day++) add(kilowatts, day, kw);
    if (run.steams) add(steamed, lastStaffedBefore(ground, standing.day), 1);
  }
  return {
    ...ground,
    liftsOn: ground.liftsOn.map((room, day) => (lifts.has(day) ? Math.min(room, Math.max(0, ops[day]! - 1)) : Math.max(room, ops[day]!))),
    steamersOn: ground.steamersOn.map((room, day) => Math.max(room, steamed[day]!)),
    powerLeftKw: ground.powerLeftKw?.map((room, day) => (power.has(day) ? room : Math.max(room, kilowatts[day]!))) ?? null,
  };
}

export function unloadDay({ handsOn }: Pick<ClashGround, "handsOn">, { daysByKiln, hands }: MovableRun, { kilnId, day }: { readonly kilnId: string; readonly day: number }): number {
  let unload = day + (daysByKiln[kilnId] ?? 0);
  while (unload < handsOn.length && !((handsOn[unload] ?? 0) >= hands)) unload++;
  return unload;
}

function lastStaffedBefore({ handsOn }: ClashGround, day: number): number {
  let before = day - 1;
  while (before >= 0 && !((handsOn[before] ?? 0) > 0)) before--;
  return before;
}

function zeros(days: number): number[] {
  return new Array<number>(days).fill(0);
}

function add(sums: number[], day: number, amount: number): void {
  if (day >= 0 && day < sums.length) sums[day]! += amount;
}
