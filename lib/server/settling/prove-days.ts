import type { DayProblem } from "@/lib/domain/settling/days/day-problem";
import { dayTables } from "@/lib/domain/settling/days/day-tables";
import { climbDays } from "@/lib/domain/settling/days/settle-days";
import { budgetOf } from "@/lib/server/settling/search";
import type { SettledPlan } from "@/lib/server/settling/settle-task";
import type { SharedFigures } from "@/lib/server/settling/shared-figures";

/** Proves how good a settlement in days can be at most, and may come upon a better one on the way. */
export async function proveDays(problem: DayProblem, endsAtMs: number, shared: SharedFigures, _onPlan: (plan: SettledPlan) => void): Promise<void> {
  while (shared.cost === Infinity && !shared.isStopped) await new Promise((resolve) => setTimeout(resolve, 2));
  const tables = dayTables(problem);
  climbDays(tables, { placements: [], cost: shared.cost, leftOut: 0 }, budgetOf(null, endsAtMs, shared), { onBound: (bound) => shared.offerBound(bound) });
}
