import { z } from "zod";
import { dayProblemFaults } from "@/lib/domain/settling/days/day-problem-faults";
import type { DayJob, DayProblem } from "@/lib/domain/settling/days/day-problem";
import type { Problem } from "@/lib/domain/refusal";

/** About 27 years. */
const LATEST_DAY = 10_000;
const LONGEST_FIRING_DAYS = 366;

const day = z.int().min(0).max(LATEST_DAY);
const index = z.int().min(0);
const price = z.number().min(0).max(1_000_000);
const job = z.strictObject({
  p: z.int().min(1).max(LONGEST_FIRING_DAYS),
  r: z.int().min(-1).max(LATEST_DAY),
  d: z.int().min(-LATEST_DAY).max(LATEST_DAY),
  w: price,
  cls: z.array(index),
  bk: z.strictObject({ kiln: index, cls: index, s: day }).exactOptional(),
  fix: price.exactOptional(),
  slope: price.exactOptional(),
  clsMove: price.exactOptional(),
});

/** The day-grain form: day t is staffed when t % 7 < 5. Names as in the description of the instances. */
export const dayFields = z.strictObject({
  name: z.string().exactOptional(),
  m: z.int().min(1).max(500),
  n: z.int().min(0).max(5_000),
  T: z.int().min(1).max(LATEST_DAY).exactOptional(),
  C: z.int().min(1),
  classOf: z.array(index),
  kilnsOf: z.array(z.array(index)),
  staffed: z.string().exactOptional(),
  H: z.int().min(1).max(10_000),
  S: z.int().min(0).max(10_000),
  W: z.int().min(1).max(LATEST_DAY),
  busy: z.array(z.strictObject({ k: index, s: day, e: day, unload: z.boolean().exactOptional() })),
  jobs: z.array(job),
});
export type DayFields = z.infer<typeof dayFields>;

const STAFFED = "days t with t % 7 < 5";
const isStaffed = (t: number): boolean => t % 7 < 5;

/** The problem the search takes, with every fault in one sentence that names the job or the kiln. */
export function dayProblem(fields: DayFields): { readonly problem: DayProblem; readonly faults: readonly Problem[] } {
  const horizon = fields.T ?? horizonOf(fields);
  const days = Array.from({ length: horizon + 1 }, (_, t) => t);
  const opsOn = days.map((t) => (isStaffed(t) ? fields.H : 0));
  for (const { e, unload } of fields.busy) {
    const day = unload === true ? days.find((t) => t >= e && isStaffed(t)) : undefined;
    // Running firings may end together on a day that cannot unload them all; nothing more is put there.
    if (day !== undefined) opsOn[day] = Math.max(0, (opsOn[day] ?? 0) - 1);
  }
  const problem: DayProblem = {
    kilns: fields.classOf.map((_, kiln) => `kiln ${kiln}`),
    classOf: fields.classOf,
    powerKw: fields.classOf.map(() => 0),
    horizon: horizon + 1,
    handsOn: days.map((t) => (isStaffed(t) ? 1 : 0)),
    opsOn,
    steamsOn: days.map((t) => (isStaffed(t) ? fields.S : 0)),
    steamWindow: fields.W,
    taken: fields.busy.map(({ k, s, e }) => ({ kiln: k, from: s, to: e })),
    powerLeftKw: null,
    jobs: fields.jobs.map((one, i) => jobOf(one, i, fields.C)),
  };
  const faults = shapeFaults(fields);
  return { problem, faults: faults.length > 0 ? faults : dayProblemFaults(problem) };
}

function jobOf({ p, r, d, w, cls, bk, fix = 0, slope = 0, clsMove = 0 }: DayFields["jobs"][number], i: number, classes: number): DayJob {
  return {
    name: `job ${i}`,
    daysByClass: Array.from({ length: classes }, (_, one) => (cls.includes(one) ? p : 0)),
    earliest: r + 1,
    latest: null,
    due: d,
    weight: w,
    steams: true,
    standing: bk === undefined ? null : { kiln: bk.kiln, start: bk.s, fix, slope, otherClass: clsMove },
    hands: 1,
    heatingDays: 0,
  };
}

/** Long enough to place everything one after another on one kiln, weekends included. */
function horizonOf({ jobs, busy }: DayFields): number {
  const latest = [...jobs.map(({ r }) => r + 1), ...jobs.map(({ bk }) => bk?.s ?? 0), ...busy.map(({ e }) => e)].reduce((most, t) => Math.max(most, t), 0);
  return Math.min(LATEST_DAY, latest + jobs.reduce((sum, { p }) => sum + p + 7, 0));
}

/** Where the parts of the document do not agree with each other. */
function shapeFaults(fields: DayFields): Problem[] {
  const { m, n, C, classOf, kilnsOf, jobs, busy } = fields;
  const faults: string[] = [];
  if (fields.staffed !== undefined && fields.staffed !== STAFFED) faults.push(`days.staffed is "${fields.staffed}"; it must be "${STAFFED}".`);
  if (classOf.length !== m) faults.push(`days.classOf has ${classOf.length} entries; there are ${m} kilns.`);
  if (kilnsOf.length !== C) faults.push(`days.kilnsOf has ${kilnsOf.length} entries; there are ${C} classes.`);
  if (jobs.length !== n) faults.push(`days.jobs has ${jobs.length} entries; n is ${n}.`);
  classOf.forEach((cls, kiln) => {
    if (cls >= C || kilnsOf[cls]?.includes(kiln) !== true) faults.push(`Kiln ${kiln} is of class ${cls}, but days.kilnsOf does not say so.`);
  });
  const listed = kilnsOf.reduce((sum, kilns) => sum + kilns.length, 0);
  if (faults.length === 0 && listed !== m) faults.push(`days.kilnsOf lists ${listed} kilns; there are ${m}.`);
  busy.forEach(({ k, s, e }) => {
    if (k >= m) faults.push(`A busy time is of kiln ${k}; there are ${m} kilns, counted from 0.`);
    else if (!(s < e)) faults.push(`Kiln ${k}: a busy time ends on day ${e}, not after its start on day ${s}.`);
  });
  jobs.forEach(({ cls, bk }, job) => {
    for (const one of cls) if (one >= C) faults.push(`Job ${job}: there is no class ${one}; there are ${C}, counted from 0.`);
    if (bk !== undefined && (bk.kiln >= m || classOf[bk.kiln] !== bk.cls)) faults.push(`Job ${job}: its booking names kiln ${bk.kiln} of class ${bk.cls}, which there is not.`);
  });
  return faults.map((message) => ({ code: "not-allowed", field: "days", message }));
}
