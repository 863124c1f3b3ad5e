import { freeAgain, heatsFor, placementCost, type DayProblem } from "@/lib/domain/settling/days/day-problem";

/**
 * A day problem laid out for the search. Days are numbered among those with people on duty only, so a
 * weekend takes no room; `dayOf` gives the day on the calendar. Where a number speaks of such a day it
 * is called an index.
 */
export type DayTables = {
  readonly problem: DayProblem;
  readonly kilns: number;
  readonly jobs: number;
  /**
   * By kiln: its class here, finer than the problem's. Kilns of a class take the same runs at the same
   * price and differ at most in when they come free the first time, so runs that are never more than
   * there are kilns can always be dealt out among them.
   */
  readonly classOf: Int32Array;
  readonly classes: number;
  /** Indexes there are. */
  readonly span: number;
  readonly dayOf: Int32Array;
  /** Loads and unloads, and steamer places, there are by index. */
  readonly ops: Int16Array;
  readonly steams: Int16Array;
  /** First index whose steamer place serves a load at this index; the last one is the index before it. */
  readonly steamFrom: Int16Array;
  /** Where the rows of a job and class begin in `end` and `cost`; −1 where it does not fit. */
  readonly rowOf: Int32Array;
  /** By row and start: the index of unloading; −1 where it cannot be loaded or unloaded in time. */
  readonly end: Int16Array;
  readonly cost: Float64Array;
  /** By row and start: calendar days from the start on with the kiln's power. */
  readonly heats: Int16Array;
  /** By job and class, as `rowOf`: the first and the last start worth looking at; none when last < first. */
  readonly first: Int32Array;
  readonly last: Int32Array;
  /** All starts worth looking at are unloaded before this index. */
  readonly reach: number;
  /** By job: the index from which a later start never costs less. */
  readonly rises: Int32Array;
  /** By kiln and start: the last index by which it must be unloaded; −1 when taken at the start. */
  readonly freeUntil: Int16Array;
  /** By job: the kilns that take it. */
  readonly fits: readonly Int32Array[];
};

/** `isOver`: asked between runs; once it is true, the runs that are left get no starts. */
export function dayTables(problem: DayProblem, isOver: () => boolean = () => false): DayTables {
  const days = problem.handsOn.flatMap((hands, day) => (hands > 0 && day < problem.horizon ? [day] : []));
  const dayOf = Int32Array.from(days);
  const classOf = fineClasses(problem, dayOf);
  const classes = classOf.reduce((most, cls) => Math.max(most, cls + 1), 0);
  const freeUntil = freeUntilOf(problem, dayOf);
  const rows = rowsOf(problem, dayOf, classOf, classes, freeUntil, isOver);
  return {
    problem,
    kilns: problem.kilns.length,
    jobs: problem.jobs.length,
    classOf,
    classes,
    span: dayOf.length,
    dayOf,
    ops: Int16Array.from(days, (day) => problem.opsOn[day]!),
    steams: Int16Array.from(days, (day) => problem.steamsOn[day]!),
    steamFrom: Int16Array.from(days, (day) => firstAtOrAfter(dayOf, day - problem.steamWindow)),
    ...rows,
    ...windowsOf(rows, dayOf.length),
    rises: Int32Array.from(problem.jobs, (job) => firstAtOrAfter(dayOf, Math.max(job.earliest, job.standing?.start ?? 0, job.quiet?.before ?? 0))),
    freeUntil,
    fits: problem.jobs.map((job) => Int32Array.from(problem.classOf.flatMap((cls, kiln) => (job.daysByClass[cls]! > 0 ? [kiln] : [])))),
  };
}

/** The first and last start of every row that has an end, and what all ends lie before. */
export function windowsOf({ rowOf, end }: Pick<DayTables, "rowOf" | "end">, span: number): Pick<DayTables, "first" | "last" | "reach"> {
  const first = new Int32Array(rowOf.length);
  const last = new Int32Array(rowOf.length).fill(-1);
  rowOf.forEach((row, at) => {
    if (row < 0) return;
    let low = 0;
    let high = span - 1;
    while (low < span && end[row + low]! < 0) low++;
    while (high >= low && end[row + high]! < 0) high--;
    first[at] = low;
    last[at] = high;
  });
  return { first, last, reach: end.reduce((most, e) => Math.max(most, e + 1), 0) };
}

/** The first index whose day is not before `day`; the number of indexes when there is none. */
export function firstAtOrAfter(dayOf: Int32Array, day: number): number {
  let low = 0;
  let high = dayOf.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (dayOf[middle]! < day) low = middle + 1;
    else high = middle;
  }
  return low;
}

function rowsOf(problem: DayProblem, dayOf: Int32Array, classOf: Int32Array, classes: number, freeUntil: Int16Array, isOver: () => boolean): Pick<DayTables, "rowOf" | "end" | "cost" | "heats"> {
  const span = dayOf.length;
  const kilnOfClass = Array.from({ length: classes }, (_, cls) => classOf.indexOf(cls));
  const rowOf = new Int32Array(problem.jobs.length * classes).fill(-1);
  let rows = 0;
  problem.jobs.forEach((job, j) => {
    for (let cls = 0; cls < classes; cls++) if (job.daysByClass[problem.classOf[kilnOfClass[cls]!]!]! > 0) rowOf[j * classes + cls] = span * rows++;
  });
  const end = new Int16Array(rows * span).fill(-1);
  const cost = new Float64Array(rows * span);
  const heats = new Int16Array(rows * span);
  const free = freeOfClass(classOf, span, classes, freeUntil);
  problem.jobs.forEach((job, j) => {
    if (isOver()) return;
    for (let cls = 0; cls < classes; cls++) {
      const row = rowOf[j * classes + cls]!;
      if (row < 0) continue;
      for (let start = firstAtOrAfter(dayOf, job.earliest); start < span; start++) {
        const day = dayOf[start]!;
        if (job.latest !== null && day > job.latest) break;
        if (job.unwanted?.some(({ cls: only, from, to }) => day >= from && day < to && (only === null || only === problem.classOf[kilnOfClass[cls]!]!)) === true) continue;
        if (problem.handsOn[day]! < job.hands || (job.steams && !steamsBefore(problem, day))) continue;
        const again = freeAgain(problem, job, kilnOfClass[cls]!, day);
        if (again === undefined) continue;
        const unload = firstAtOrAfter(dayOf, again);
        if (unload >= span) break;
        if (unload > free[cls * span + start]!) continue;
        end[row + start] = unload;
        heats[row + start] = heatsFor(problem, job, kilnOfClass[cls]!, day);
        cost[row + start] = placementCost(problem, job, kilnOfClass[cls]!, day, dayOf[unload]!);
      }
    }
  });
  return { rowOf, end, cost, heats };
}

/** By class and start: the last index by which some kiln of the class must be unloaded. */
function freeOfClass(classOf: Int32Array, span: number, classes: number, freeUntil: Int16Array): Int16Array {
  const free = new Int16Array(classes * span).fill(-1);
  classOf.forEach((cls, kiln) => {
    for (let i = 0; i < span; i++) free[cls * span + i] = Math.max(free[cls * span + i]!, freeUntil[kiln * span + i]!);
  });
  return free;
}

function steamsBefore({ steamsOn, handsOn, steamWindow }: DayProblem, day: number): boolean {
  for (let before = Math.max(0, day - steamWindow); before < day; before++) if (steamsOn[before]! > 0 && handsOn[before]! > 0) return true;
  return false;
}

/** Numbers the kilns' classes: alike for the problem, in power, and in what takes them after the first days. */
function fineClasses(problem: DayProblem, dayOf: Int32Array): Int32Array {
  const numbers = new Map<string, number>();
  const first = dayOf[0] ?? 0;
  return Int32Array.from(problem.classOf, (cls, kiln) => {
    const later = problem.taken.filter((stretch) => stretch.kiln === kiln && stretch.from > first).map(({ from, to }) => [from, to]);
    const key = JSON.stringify([cls, problem.powerKw[kiln], later.sort((a, b) => a[0]! - b[0]!)]);
    const number = numbers.get(key) ?? numbers.size;
    numbers.set(key, number);
    return number;
  });
}

function freeUntilOf(problem: DayProblem, dayOf: Int32Array): Int16Array {
  const span = dayOf.length;
  const until = new Int16Array(problem.kilns.length * span).fill(span);
  for (const { kiln, from, to } of problem.taken) {
    const last = firstAtOrAfter(dayOf, from + 1) - 1;
    const next = firstAtOrAfter(dayOf, to);
    for (let i = 0; i < next; i++) {
      const at = kiln * span + i;
      if (dayOf[i]! >= from) until[at] = -1;
      else if (until[at]! > last) until[at] = last;
    }
  }
  return until;
}
