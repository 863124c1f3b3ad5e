import type { ClashGround, MovableRun } from "@/lib/domain/settling/clash/clash-ground";
import { NEAR_DAYS, type Aim } from "@/lib/domain/settling/clash/weights";
import type { DayPlacement } from "@/lib/domain/settling/days/day-problem";

export type Place = { readonly kilnId: string; readonly day: number };

/** One run that gets a place, or another one. */
export type Move = {
  readonly runId: string;
  readonly title: string;
  readonly memberName: string;
  /** Null for an ask. */
  readonly from: Place | null;
  readonly to: Place;
  /** Day the kiln is unloaded. */
  readonly until: number;
  /** Day of the steamer; null when nothing is steamed. */
  readonly steamDay: number | null;
  /** Days later than before; negative when sooner. 0 for an ask. */
  readonly days: number;
  readonly neededBy: number | null;
  /** Days after the needed-by day; 0 when it is kept, or there is none. */
  readonly daysLate: number;
};

/** A settlement in plain figures. */
export type Figures = {
  /** Runs that stood and get another day or kiln. */
  readonly moved: number;
  /** People who have at least one such run. */
  readonly peopleMoved: number;
  readonly asksPlaced: number;
  /** Runs after their needed-by day, moved or not, and by how many days in all. */
  readonly late: number;
  readonly daysLate: number;
  /** Days late, each counted by the importance of its casting. */
  readonly weightedDaysLate: number;
  readonly otherKilns: number;
  /** Days between old and new loading days, over all that moved. */
  readonly daysMoved: number;
  /** Moves out of or into the nearest two weeks. */
  readonly nearChanges: number;
};

export type Settlement = {
  readonly aim: Aim;
  readonly moves: readonly Move[];
  readonly figures: Figures;
  /** Points by the weights of its aim, and a proven lower bound of them. */
  readonly cost: number;
  readonly bound: number;
  /** At most so many per cent above the best possible; null when the best may be 0 and this is not. */
  readonly atMostPercent: number | null;
  readonly placements: readonly DayPlacement[];
};

/** Says what a plan means to people. */
export function settlementOf(ground: ClashGround, aim: Aim, placements: readonly DayPlacement[], cost: number, bound: number): Settlement {
  const all = placements.map((placement) => moveOf(ground, placement));
  const moves = all.filter(({ from, to }) => from === null || from.day !== to.day || from.kilnId !== to.kilnId);
  return { aim, moves, figures: figuresOf(ground, all, moves), cost, bound, atMostPercent: percentAbove(cost, bound), placements };
}

/** Up, to a tenth of a per cent, so that what is said is never less than it may be. */
export function percentAbove(cost: number, bound: number): number | null {
  if (cost <= bound + 1e-6) return 0;
  return bound > 0 ? Math.ceil(((cost - bound) / bound) * 1000 - 1e-9) / 10 : null;
}

function moveOf({ runs, kilns }: ClashGround, { job, kiln, start, end, steam }: DayPlacement): Move {
  const run = runs[job] as MovableRun;
  const { runId, title, memberName, standing, neededBy } = run;
  return {
    runId,
    title,
    memberName,
    from: standing,
    to: { kilnId: kilns[kiln]?.kilnId ?? "", day: start },
    until: end,
    steamDay: run.steams ? steam : null,
    days: standing === null ? 0 : start - standing.day,
    neededBy,
    daysLate: neededBy === null ? 0 : Math.max(0, end - neededBy),
  };
}

function figuresOf({ runs }: ClashGround, all: readonly Move[], moves: readonly Move[]): Figures {
  const importance = new Map(runs.map((run) => [run.runId, run.importance]));
  const stood = moves.filter(({ from }) => from !== null);
  const late = all.filter(({ daysLate }) => daysLate > 0);
  const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
  return {
    moved: stood.length,
    peopleMoved: new Set(stood.map(({ memberName }) => memberName)).size,
    asksPlaced: moves.length - stood.length,
    late: late.length,
    daysLate: sum(late.map(({ daysLate }) => daysLate)),
    weightedDaysLate: sum(late.map(({ runId, daysLate }) => daysLate * (importance.get(runId) ?? 1))),
    otherKilns: stood.filter(({ from, to }) => from?.kilnId !== to.kilnId).length,
    daysMoved: sum(stood.map(({ days }) => Math.abs(days))),
    nearChanges: stood.filter(({ from, to }) => Math.min(from?.day ?? to.day, to.day) < NEAR_DAYS).length,
  };
}
