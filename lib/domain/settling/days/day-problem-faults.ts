import type { DayJob, DayProblem } from "@/lib/domain/settling/days/day-problem";
import type { Problem } from "@/lib/domain/refusal";

/** Why a problem cannot be settled at all: one sentence each, naming the run or the kiln. */
export function dayProblemFaults(problem: DayProblem): Problem[] {
  const faults = [...overlaps(problem), ...peopleFaults(problem)].map((message): Problem => ({ code: "not-allowed", message }));
  if (faults.length > 0) return faults;
  const free = freeStretches(problem);
  return problem.jobs.flatMap((job, i) => jobFaults(problem, job, free).map((fault) => ({ code: "not-allowed", ...fault, ...(fault.field === undefined ? {} : { field: `jobs.${i}.${fault.field}` }) })));
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

type JobFault = { readonly message: string; readonly field?: string; readonly value?: unknown; readonly allowed?: string };

function jobFaults(problem: DayProblem, job: DayJob, free: readonly (readonly Stretch[])[]): JobFault[] {
  const name = capital(job.name);
  const lengths = job.daysByClass.filter((_, cls) => problem.classOf.includes(cls)).filter((days) => days > 0);
  if (lengths.length === 0) return [{ message: `${name}: no kiln can take it.` }];
  const shortest = Math.min(...lengths);
  if (job.earliest + shortest >= problem.horizon) {
    return [{ message: `${name}: it takes ${shortest} days from day ${job.earliest} on, and the calendar ends on day ${problem.horizon - 1}.` }];
  }
  // A kiln counts with its power while it is held; what heats longer would be added up nowhere.
  if (!(Number.isInteger(job.heatingDays) && job.heatingDays >= 0 && job.heatingDays <= shortest)) {
    const allowed = `0 to ${shortest} whole days`;
    return [{ message: `${name}: it heats for ${job.heatingDays} days; as long as it is in the kiln is allowed, ${allowed}.`, field: "heatingDays", value: job.heatingDays, allowed }];
  }
  const most = problem.handsOn.reduce((sofar, hands) => Math.max(sofar, hands), 0);
  if (job.hands > most) return [{ message: `${name}: it takes ${job.hands} people to load, and at most ${most} are on duty.` }];
  if (job.latest !== null && job.latest < job.earliest) {
    return [{ message: `${name}: it must be loaded by day ${job.latest}, and can be from day ${job.earliest} on.`, field: "latest", value: job.latest, allowed: `day ${job.earliest} or later` }];
  }
  const fits = problem.classOf.some((cls, kiln) => free[kiln]!.some((stretch) => hasRoom(stretch, job, job.daysByClass[cls]!)));
  const until = job.latest === null ? "" : ` when loaded by day ${job.latest}`;
  return fits ? [] : [{ message: `${name}: no kiln that takes it is free for ${shortest} days at a stretch from day ${job.earliest} on${until}.` }];
}

/** Free days of a kiln, half-open. */
type Stretch = { readonly from: number; readonly to: number };

/** By kiln. What is taken does not overlap. */
function freeStretches({ kilns, taken, horizon }: DayProblem): Stretch[][] {
  return kilns.map((_, kiln) => {
    const own = taken.filter((stretch) => stretch.kiln === kiln).sort((a, b) => a.from - b.from);
    return [{ to: 0 }, ...own].map(({ to }, i) => ({ from: to, to: own[i]?.from ?? horizon }));
  });
}

function hasRoom({ from, to }: Stretch, { earliest, latest }: DayJob, days: number): boolean {
  const start = Math.max(from, earliest);
  return days > 0 && start + days <= to && (latest === null || start <= latest);
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
