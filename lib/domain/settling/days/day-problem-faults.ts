import type { DayJob, DayProblem } from "@/lib/domain/settling/days/day-problem";
import type { Problem } from "@/lib/domain/refusal";

/** A day as people read it: "Mon 8 Jun". */
export type SayDay = (day: number) => string;

/** Of a bare problem, whose days have no dates. */
const BY_NUMBER: SayDay = (day) => `day ${day}`;

/** Why a problem cannot be settled at all: one sentence each, naming the run, the kiln, and days as `sayDay` says them. */
export function dayProblemFaults(problem: DayProblem, sayDay: SayDay = BY_NUMBER): Problem[] {
  const faults = [...overlaps(problem, sayDay), ...peopleFaults(problem, sayDay)].map((message): Problem => ({ code: "not-allowed", message }));
  if (faults.length > 0) return faults;
  const free = freeStretches(problem);
  return problem.jobs.flatMap((job, i) => jobFaults(problem, job, free, sayDay).map((fault) => ({ code: "not-allowed", ...fault, ...(fault.field === undefined ? {} : { field: `jobs.${i}.${fault.field}` }) })));
}

function overlaps({ taken, kilns }: DayProblem, sayDay: SayDay): string[] {
  return kilns.flatMap((name, kiln) => {
    const own = taken.filter((stretch) => stretch.kiln === kiln).sort((a, b) => a.from - b.from);
    return own.slice(1).flatMap((next, i) => {
      const before = own[i]!;
      return before.to <= next.from ? [] : [`${capital(name)}: it is taken from ${sayDay(before.from)} until ${sayDay(before.to)} and again from ${sayDay(next.from)} until ${sayDay(next.to)}.`];
    });
  });
}

function peopleFaults({ jobs, opsOn, handsOn, steamsOn, horizon }: DayProblem, sayDay: SayDay): string[] {
  const span = `from ${sayDay(0)} until ${sayDay(horizon - 1)}`;
  if (jobs.length > 0 && !opsOn.some((ops, day) => ops > 0 && handsOn[day]! > 0)) return [`Nobody is there to load or unload ${namesOf(jobs)} on any day ${span}.`];
  const steamed = jobs.filter((job) => job.steams);
  if (steamed.length > 0 && !steamsOn.some((places) => places > 0)) return [`No steamer is free for ${namesOf(steamed)} on any day ${span}.`];
  return [];
}

function namesOf(jobs: readonly DayJob[]): string {
  const [first, ...others] = jobs;
  return `${first?.name ?? "anything"}${others.length === 0 ? "" : others.length === 1 ? ` and ${others[0]?.name}` : ` and ${others.length} others`}`;
}

type JobFault = { readonly message: string; readonly field?: string; readonly value?: unknown; readonly allowed?: string };

function jobFaults(problem: DayProblem, job: DayJob, free: readonly (readonly Stretch[])[], sayDay: SayDay): JobFault[] {
  const name = capital(job.name);
  const lengths = job.daysByClass.filter((_, cls) => problem.classOf.includes(cls)).filter((days) => days > 0);
  if (lengths.length === 0) return [{ message: `${name}: no kiln can take it.` }];
  const shortest = Math.min(...lengths);
  if (job.earliest + shortest >= problem.horizon) {
    return [{ message: `${name}: it takes ${daysIn(problem, job, shortest)} from ${sayDay(job.earliest)} on, and the calendar ends on ${sayDay(problem.horizon - 1)}.` }];
  }
  // A kiln counts with its power while it is held; what heats longer would be added up nowhere.
  if (!(Number.isInteger(job.heatingDays) && job.heatingDays >= 0 && job.heatingDays <= shortest)) {
    const allowed = `0 to ${shortest} whole days`;
    return [{ message: `${name}: it heats for ${job.heatingDays} days; as long as it is in the kiln is allowed, ${allowed}.`, field: "heatingDays", value: job.heatingDays, allowed }];
  }
  const most = problem.handsOn.reduce((sofar, hands) => Math.max(sofar, hands), 0);
  if (job.hands > most) return [{ message: `${name}: it takes ${job.hands} people to load, and at most ${most} are on duty on any day until ${sayDay(problem.horizon - 1)}.` }];
  if (job.latest !== null && job.latest < job.earliest) {
    return [{ message: `${name}: it must be loaded by ${sayDay(job.latest)}, and can be from ${sayDay(job.earliest)} on.`, field: "latest", value: job.latest, allowed: `${sayDay(job.earliest)} or later` }];
  }
  const fits = problem.classOf.some((cls, kiln) => free[kiln]!.some((stretch) => hasRoom(stretch, job, job.daysByClass[cls]!)));
  const until = job.latest === null ? "" : ` when loaded by ${sayDay(job.latest)}`;
  return fits ? [] : [{ message: `${name}: ${takersOf(problem, job)} free for ${days(shortest)} at a stretch from ${sayDay(job.earliest)} on${until}.` }];
}

/** "27 days in the east kiln": the kiln that holds it for the shortest time. */
function daysIn({ kilns, classOf }: DayProblem, job: DayJob, shortest: number): string {
  const kiln = kilns[classOf.findIndex((cls) => job.daysByClass[cls] === shortest)];
  return `${days(shortest)}${kiln === undefined ? "" : ` in ${kiln}`}`;
}

/** "The west kiln, which takes it, is not", "none of the 5 kilns that take it is". */
function takersOf({ kilns, classOf }: DayProblem, job: DayJob): string {
  const takers = kilns.filter((_, kiln) => job.daysByClass[classOf[kiln]!]! > 0);
  if (takers.length === 1) return `${takers[0]}, the only kiln that takes it, is not`;
  return takers.length === 2 ? `neither ${takers[0]} nor ${takers[1]} is` : `none of the ${takers.length} kilns that take it is`;
}

function days(count: number): string {
  return count === 1 ? "1 day" : `${count} days`;
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
