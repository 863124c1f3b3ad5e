import { heatsFor, placementCost, type DayPlacement, type DayProblem } from "@/lib/domain/settling/days/day-problem";

/**
 * Checks a settlement in days from the problem alone, sharing nothing with the search: every run once
 * on a kiln it fits; staffed days to load and unload, with people enough; kilns held once, also beside
 * what is taken; loads and unloads of a day; a steamer place inside its window; power. One sentence a
 * fault; an empty list means that it stands. The cost is checked too when one is given.
 */
export function verifyDays(problem: DayProblem, placements: readonly DayPlacement[], cost?: number): string[] {
  const faults = [...onceEach(problem, placements), ...placements.flatMap((placement) => placementFaults(problem, placement)), ...kilnFaults(problem, placements), ...sumFaults(problem, placements)];
  if (faults.length > 0 || cost === undefined) return faults;
  const worked = placements.reduce((sum, { job, kiln, start, end }) => sum + placementCost(problem, problem.jobs[job]!, kiln, start, end), 0);
  return Math.abs(worked - cost) <= 1e-6 * Math.max(1, worked) ? [] : [`The cost is said to be ${cost}; it is ${worked}.`];
}

function onceEach({ jobs }: DayProblem, placements: readonly DayPlacement[]): string[] {
  const times = new Map<number, number>();
  for (const { job } of placements) times.set(job, (times.get(job) ?? 0) + 1);
  return jobs.flatMap((job, i) => (times.get(i) === 1 ? [] : [`${job.name} is placed ${times.get(i) ?? 0} times.`]));
}

function placementFaults(problem: DayProblem, { job: index, kiln, start, end, steam }: DayPlacement): string[] {
  const job = problem.jobs[index]!;
  const days = job.daysByClass[problem.classOf[kiln] ?? -1] ?? 0;
  const staffed = (day: number): boolean => (problem.handsOn[day] ?? 0) >= Math.max(1, job.hands);
  if (!(days > 0)) return [`${job.name} stands on kiln ${kiln}, which it does not fit.`];
  const faults: string[] = [];
  if (!staffed(start)) faults.push(`${job.name} is loaded on day ${start}, when too few people are there.`);
  if (start < job.earliest) faults.push(`${job.name} is loaded on day ${start}, before day ${job.earliest}.`);
  if (job.unwanted?.some(({ cls, from, to }) => start >= from && start < to && (cls ?? problem.classOf[kiln]) === problem.classOf[kiln]) === true) {
    faults.push(`${job.name} is loaded on day ${start}, where it is not wanted.`);
  }
  if (job.latest !== null && start > job.latest) faults.push(`${job.name} is loaded on day ${start}, after day ${job.latest}.`);
  const stays = job.stays?.[problem.classOf[kiln] ?? -1];
  let unload = stays?.free[start] ?? start + days;
  while (stays === undefined && unload < problem.horizon && !staffed(unload)) unload++;
  if (end !== unload || end >= problem.horizon) faults.push(`${job.name} is unloaded on day ${end}; the first staffed day is ${unload}.`);
  if (!job.steams) return faults;
  if (!(steam >= start - problem.steamWindow && steam <= start - 1) || !((problem.handsOn[steam] ?? 0) > 0)) {
    faults.push(`${job.name} is steamed on day ${steam}; it is loaded on day ${start}.`);
  }
  return faults;
}

function kilnFaults(problem: DayProblem, placements: readonly DayPlacement[]): string[] {
  return problem.kilns.flatMap((name, kiln) => {
    const held = [
      ...placements.filter((placement) => placement.kiln === kiln).map(({ start, end }) => ({ from: start, to: end })),
      ...problem.taken.filter((stretch) => stretch.kiln === kiln),
    ].sort((a, b) => a.from - b.from || a.to - b.to);
    return held.slice(1).flatMap((next, i) => (next.from < held[i]!.to ? [`${name} is held twice on day ${next.from}.`] : []));
  });
}

function sumFaults(problem: DayProblem, placements: readonly DayPlacement[]): string[] {
  const days = problem.horizon;
  const ops = new Array<number>(days).fill(0);
  const steams = new Array<number>(days).fill(0);
  const power = new Array<number>(days).fill(0);
  const add = (sums: number[], day: number, amount: number): void => {
    if (day >= 0 && day < days) sums[day]! += amount;
  };
  for (const { job, kiln, start, end, steam } of placements) {
    add(ops, start, 1);
    add(ops, end, 1);
    if (problem.jobs[job]!.steams) add(steams, steam, 1);
    for (let day = start; day < start + heatsFor(problem, problem.jobs[job]!, kiln, start); day++) add(power, day, problem.powerKw[kiln]!);
  }
  const faults: string[] = [];
  for (let day = 0; day < days; day++) {
    if (ops[day]! > problem.opsOn[day]!) faults.push(`On day ${day} there are ${ops[day]} loads and unloads; ${problem.opsOn[day]} are possible.`);
    if (steams[day]! > problem.steamsOn[day]!) faults.push(`On day ${day} ${steams[day]} moulds are steamed; there is room for ${problem.steamsOn[day]}.`);
    const left = problem.powerLeftKw?.[day] ?? Infinity;
    if (power[day]! > left + 1e-6) faults.push(`On day ${day} kilns that heat draw ${power[day]} kW; ${left} kW are left.`);
  }
  return faults;
}
