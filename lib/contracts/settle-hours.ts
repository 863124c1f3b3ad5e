import { z } from "zod";
import type { HourAsk, HourProblem, Taken } from "@/lib/domain/settling/hours/hour-problem";
import type { Problem } from "@/lib/domain/refusal";

/** About 114 years; hours beyond are a slip of the pen, not a plan. */
export const LATEST_HOUR = 1_000_000;
/** One year in one kiln: longer than any firing. */
export const LONGEST_FIRING_HOURS = 8_760;
export const MOST_WEIGHT = 1_000_000;
export const MOST_ASKS = 5_000;
export const MOST_KILNS = 500;

const id = z.string().min(1);

/** The form in whole hours, as it is written down. What the numbers may be is said by {@link hourProblem}. */
export const hourFields = {
  kilns: z.array(z.strictObject({ id })),
  asks: z.array(z.strictObject({ id, releaseH: z.number(), dueH: z.number(), weight: z.number(), hoursByKiln: z.record(z.string(), z.number()) })),
  fixed: z.array(z.strictObject({ kiln: z.string(), fromH: z.number(), toH: z.number() })).exactOptional(),
};
export type HourFields = z.infer<z.ZodObject<typeof hourFields>>;

/** The problem the search takes, with every fault in one sentence that names the ask or the kiln. */
export function hourProblem({ kilns, asks, fixed = [] }: HourFields): { readonly problem: HourProblem; readonly faults: readonly Problem[] } {
  const ids = kilns.map((kiln) => kiln.id);
  const faults: Problem[] = [];
  if (ids.length === 0) faults.push(fault("kilns", "There is no kiln; name at least one."));
  if (ids.length > MOST_KILNS) faults.push(fault("kilns", `There are ${ids.length} kilns; at most ${MOST_KILNS} can be settled at once.`));
  if (asks.length > MOST_ASKS) faults.push(fault("asks", `There are ${asks.length} asks; at most ${MOST_ASKS} can be settled at once.`));
  faults.push(...twice("kilns", "Kiln", ids), ...twice("asks", "Ask", asks.map((ask) => ask.id)));
  asks.forEach((ask, i) => faults.push(...askFaults(ask, `asks.${i}`, ids)));
  fixed.forEach((stretch, i) => faults.push(...fixedFaults(stretch, `fixed.${i}`, ids)));
  const taken = ids.map((kiln) => takenOf(kiln, fixed, faults));
  return { problem: { kilns: ids, asks: asks.map((ask) => askOf(ask, ids)), taken }, faults };
}

type AskFields = HourFields["asks"][number];
type FixedFields = NonNullable<HourFields["fixed"]>[number];

function askOf({ id: name, releaseH, dueH, weight, hoursByKiln }: AskFields, kilns: readonly string[]): HourAsk {
  return { id: name, releaseH, dueH, weight, hours: kilns.map((kiln) => (Object.hasOwn(hoursByKiln, kiln) ? (hoursByKiln[kiln] ?? 0) : 0)) };
}

function askFaults(ask: AskFields, field: string, kilns: readonly string[]): Problem[] {
  const name = `Ask ${ask.id}`;
  const entries = Object.entries(ask.hoursByKiln);
  return [
    ...wholeFault(`${field}.releaseH`, `${name}: releaseH`, ask.releaseH, 0, LATEST_HOUR),
    ...wholeFault(`${field}.dueH`, `${name}: dueH`, ask.dueH, -LATEST_HOUR, LATEST_HOUR),
    ...(ask.weight >= 0 && ask.weight <= MOST_WEIGHT ? [] : [fault(`${field}.weight`, `${name}: weight is ${ask.weight}; it must be 0 to ${MOST_WEIGHT}.`)]),
    ...(entries.length > 0 ? [] : [fault(`${field}.hoursByKiln`, `${name}: no kiln can take it; hoursByKiln must name at least one.`)]),
    ...entries.flatMap(([kiln, hours]) => [
      ...(kilns.includes(kiln) ? [] : [fault(`${field}.hoursByKiln.${kiln}`, `${name}: there is no kiln ${kiln}.`)]),
      ...wholeFault(`${field}.hoursByKiln.${kiln}`, `${name}: hours on kiln ${kiln}`, hours, 1, LONGEST_FIRING_HOURS),
    ]),
  ];
}

function fixedFaults({ kiln, fromH, toH }: FixedFields, field: string, kilns: readonly string[]): Problem[] {
  const name = `Fixed time on kiln ${kiln}`;
  if (!kilns.includes(kiln)) return [fault(`${field}.kiln`, `${name}: there is no such kiln.`)];
  const hours = [...wholeFault(`${field}.fromH`, `${name}: fromH`, fromH, 0, LATEST_HOUR), ...wholeFault(`${field}.toH`, `${name}: toH`, toH, 0, LATEST_HOUR)];
  if (hours.length > 0 || fromH < toH) return hours;
  return [fault(`${field}.toH`, `${name}: toH is ${toH}; it must be later than fromH, which is ${fromH}.`)];
}

/** The stretches of one kiln in order; two that overlap are a fault, two that touch are not. */
function takenOf(kiln: string, fixed: readonly FixedFields[], faults: Problem[]): Taken[] {
  const own = fixed.filter((stretch) => stretch.kiln === kiln).sort((a, b) => a.fromH - b.fromH || a.toH - b.toH);
  own.slice(1).forEach((next, i) => {
    const before = own[i];
    if (before === undefined || before.toH <= next.fromH) return;
    faults.push(fault("fixed", `Kiln ${kiln}: fixed times ${before.fromH} to ${before.toH} and ${next.fromH} to ${next.toH} overlap.`));
  });
  return own.map(({ fromH, toH }) => ({ fromH, toH }));
}

function twice(field: string, what: string, ids: readonly string[]): Problem[] {
  const repeated = new Set(ids.filter((one, i) => ids.indexOf(one) !== i));
  return [...repeated].map((one) => fault(field, `${what} ${one} is named twice.`));
}

function wholeFault(field: string, what: string, value: number, least: number, most: number): Problem[] {
  if (Number.isInteger(value) && value >= least && value <= most) return [];
  return [fault(field, `${what} is ${value}; it must be a whole number of hours, ${least} to ${most}.`)];
}

function fault(field: string, message: string): Problem {
  return { code: "not-allowed", field, message };
}
