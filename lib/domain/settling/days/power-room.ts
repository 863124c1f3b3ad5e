import type { DayPlan } from "@/lib/domain/settling/days/day-plan";

const TOLERANCE_KW = 1e-6;

/** True when a job may heat its kiln from this index on, beside everything on other kilns. */
export function hasPower(plan: DayPlan, kiln: number, job: number, start: number): boolean {
  const { problem, dayOf } = plan.tables;
  const { powerLeftKw, powerKw, jobs } = problem;
  if (powerLeftKw === null) return true;
  const from = dayOf[start]!;
  for (let day = from; day < from + jobs[job]!.heatingDays && day < powerLeftKw.length; day++) {
    if (plan.powerUsed[day]! - drawnBy(plan, kiln, day) + powerKw[kiln]! > powerLeftKw[day]! + TOLERANCE_KW) return false;
  }
  return true;
}

/** Kilowatts the runs of one kiln draw on a day: its own, whichever of them heats. */
function drawnBy({ tables, orders, start }: DayPlan, kiln: number, day: number): number {
  const { problem, dayOf } = tables;
  return orders[kiln]!.reduce((sum, job) => {
    const from = dayOf[start[job]!]!;
    return day >= from && day < from + problem.jobs[job]!.heatingDays ? sum + problem.powerKw[kiln]! : sum;
  }, 0);
}
