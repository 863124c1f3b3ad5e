import type { DayJob, DayProblem } from "@/lib/domain/settling/days/day-problem";
import type { Problem } from "@/lib/domain/refusal";

/** Why a problem cannot be settled at all: one sentence each, naming the run or the kiln. */
export function dayProblemFaults(problem: DayProblem): Problem[] {
  const faults = [...overlaps(problem), ...peopleFaults(problem)];
  const found = faults.length > 0 ? faults : problem.jobs.flatMap((job) => jobFaults(problem, job));
  return found.map((message) => ({ code: "not-allowed", message }));
}

function overlaps({ taken, kilns }: DayProblem): string[] {
  return kilns.flatMap((name, kiln) => {
    const own = taken.filter((stretch) => stretch.kiln === kiln).sort((a, b) => a.from - b.from);
    return own.slice(1).flatMap((next, i) => {
      const before = own[i]!;
      return before.to <= next.from ? [] : [`${capital(name)}: its busy days ${before.from} to ${before.to} and ${next.from} to ${next.to} overlap.`];
    });
  });
}

function peopleFaults({ jobs, opsOn, handsOn, steamsOn }: DayProblem): string[] {
  if (jobs.length === 0) return [];
  if (!opsOn.some((ops, day) => ops > 0 && handsOn[day]! > 0)) return ["Nobody loads or unloads on any day, so nothing can be placed."];
  if (jobs.some((job) => job.steams) && !steamsOn.some((places) => places > 0)) return ["No steamer is free on any day, so no wax can be steamed out."];
  return [];
}

function jobFaults(problem: DayProblem, job: DayJob): string[] {
  const name = capital(job.name);
  const lengths = job.daysByClass.filter((_, cls) => problem.classOf.includes(cls)).filter((days) => days > 0);
  if (lengths.length === 0) return [`${name}: no kiln can take it.`];
  const shortest = Math.min(...lengths);
  if (job.earliest + shortest >= problem.horizon) {
    return [`${name}: it takes ${shortest} days from day ${job.earliest} on, and the calendar ends on day ${problem.horizon - 1}.`];
  }
  const most = problem.handsOn.reduce((sofar, hands) => Math.max(sofar, hands), 0);
  if (job.hands > most) return [`${name}: it takes ${job.hands} people to load, and at most ${most} are on duty.`];
  return [];
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
