import { existsSync, readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { dayFields, dayProblem } from "@/lib/contracts/settle-days";
import type { DayProblem } from "@/lib/domain/settling/days/day-problem";
import type { HourProblem } from "@/lib/domain/settling/hours/hour-problem";

/** Where instances lie that are not part of this project: `wt` and `kiln-synth`, as their own description says. */
const FOLDER = process.env["LEHRBOOK_BENCH_DATA"] ?? path.join("..", "shared", "data");

export type KnownSeason = { readonly name: string; readonly problem: DayProblem; readonly best: number; readonly isProven: boolean };

/** The day-grain instances with what is known of them; none where they are not at hand. */
export function knownSeasons(): KnownSeason[] {
  const folder = path.join(FOLDER, "kiln-synth");
  if (!existsSync(folder)) return [];
  const known = new Map(readFileSync(path.join(folder, "best.csv"), "utf8").trim().split("\n").slice(1).map((line) => [line.split(",")[0], line.split(",")]));
  return readdirSync(folder).filter((file) => file.endsWith(".json")).sort().flatMap((file) => {
    const name = file.slice(0, -".json".length);
    const [, , , best, bound] = known.get(name) ?? [];
    if (best === undefined) return [];
    return [{ name, problem: seasonProblem(JSON.parse(readFileSync(path.join(folder, file), "utf8"))), best: Number(best), isProven: best === bound }];
  });
}

/** @throws when the document has a fault: instances of a bench have none */
export function seasonProblem(document: unknown): DayProblem {
  const { problem, faults } = dayProblem(dayFields.parse(document));
  const [fault] = faults;
  if (fault !== undefined) throw new Error(fault.message);
  return problem;
}

export type KnownOrder = { readonly problem: HourProblem; readonly best: number };

/** The OR-Library's weighted tardiness instances of a size: times, weights and dates of each, and the best cost known. */
export function weightedTardiness(size: number): KnownOrder[] {
  const [file, optima] = [path.join(FOLDER, "wt", `wt${size}.txt`), path.join(FOLDER, "wt", `wtopt${size}.txt`)];
  if (!existsSync(file) || !existsSync(optima)) return [];
  const numbers = (from: string): number[] => readFileSync(from, "utf8").trim().split(/\s+/).map(Number);
  const [all, best] = [numbers(file), numbers(optima)];
  return Array.from({ length: Math.floor(all.length / (3 * size)) }, (_, i) => {
    const at = (part: number, job: number): number => all[i * 3 * size + part * size + job] ?? NaN;
    return { problem: oneKiln(Array.from({ length: size }, (_, job) => ({ hours: at(0, job), weight: at(1, job), dueH: at(2, job) }))), best: best[i] ?? NaN };
  });
}

export function oneKiln(jobs: readonly { readonly hours: number; readonly weight: number; readonly dueH: number }[]): HourProblem {
  return { kilns: ["one"], asks: jobs.map(({ hours, weight, dueH }, i) => ({ id: `${i}`, releaseH: 0, dueH, weight, hours: [hours] })), taken: [[]] };
}
