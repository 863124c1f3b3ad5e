import type { ClassPlan } from "@/lib/domain/settling/days/class-plan";
import { emptyDayPlan, setOrder, type DayPlan } from "@/lib/domain/settling/days/day-plan";

/**
 * Deals the runs of every class out among its kilns. Taken in the order of their starts, each finds a
 * kiln that is free: kilns of a class differ only in when they come free the first time, and never
 * more runs stand on a day than kilns are free. A run that stands keeps its kiln where it can;
 * otherwise the kiln that came free last is taken.
 */
export function dealOut({ tables, choice }: ClassPlan): DayPlan {
  const { span, kilns, classes, freeUntil, end, rowOf, problem } = tables;
  const plan = emptyDayPlan(tables);
  const freeAt = Int32Array.from({ length: kilns }, (_, kiln) => {
    let first = 0;
    while (first < span && freeUntil[kiln * span + first]! < 0) first++;
    // A stretch taken later on belongs to a class of one kiln, which has no choice to make.
    return tables.classOf.filter((cls) => cls === tables.classOf[kiln]).length > 1 ? first : 0;
  });
  const orders = Array.from({ length: kilns }, () => ({ jobs: [] as number[], starts: [] as number[] }));
  const placed = [...choice.keys()].filter((job) => choice[job]! >= 0).sort((a, b) => (choice[a]! % span) - (choice[b]! % span) || a - b);
  for (const job of placed) {
    const cls = Math.floor(choice[job]! / span);
    const start = choice[job]! % span;
    let best = -1;
    for (let kiln = 0; kiln < kilns; kiln++) {
      if (tables.classOf[kiln] !== cls || freeAt[kiln]! > start) continue;
      if (kiln === problem.jobs[job]!.standing?.kiln) {
        best = kiln;
        break;
      }
      if (best < 0 || freeAt[kiln]! > freeAt[best]!) best = kiln;
    }
    if (best < 0) continue;
    orders[best]!.jobs.push(job);
    orders[best]!.starts.push(start);
    freeAt[best] = end[rowOf[job * classes + cls]! + start]!;
  }
  orders.forEach(({ jobs, starts }, kiln) => setOrder(plan, kiln, jobs, starts));
  return plan;
}
