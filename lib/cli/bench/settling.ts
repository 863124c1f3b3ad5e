import { existsSync, readFileSync } from "node:fs";
import { monitorEventLoopDelay } from "node:perf_hooks";
import { NO_WISHES, type ClashGround, type MovableRun } from "@/lib/domain/settling/clash/clash-ground";
import { clashProblem } from "@/lib/domain/settling/clash/clash-problem";
import { DEFAULT_WEIGHTS, weightsFor } from "@/lib/domain/settling/clash/weights";
import { settleHours } from "@/lib/domain/settling/hours/settle-hours";
import { clockBudget } from "@/lib/domain/settling/effort";
import { settleClashInWorker } from "@/lib/server/settling/settle-clash-in-worker";
import { settleInWorker } from "@/lib/server/settling/settle-in-worker";
import { seeded } from "./seeded";

const DAYS = 182;
const KILNS = 12;
const sayDay = (day: number): string => `day ${day}`;
const print = (line: string): void => void process.stdout.write(`${line}\n`);

/** Three ways out of one clash, the proof that the cheapest is, what the asking thread feels of it; single-machine instances. */
export async function benchSettling(): Promise<void> {
  const ground = brokenKiln(80);
  const lag = monitorEventLoopDelay({ resolution: 1 });
  lag.enable();
  const start = performance.now();
  const ways = await settleClashInWorker({ ground, wishes: NO_WISHES, seconds: 1.9, sayDay });
  const seconds = (performance.now() - start) / 1000;
  lag.disable();
  if (!ways.ok) throw new Error(ways.problems[0].message);
  const gaps = ways.value.map(({ atMostPercent }) => (atMostPercent === null ? "unknown" : `${atMostPercent} %`)).join(", ");
  print(`ways out, 12 kilns, 80 bookings: ${seconds.toFixed(2)} s (goal 2; ${ways.value.length} different ones, at most ${gaps} from the best possible)`);
  print(`lag of the asking thread meanwhile, most: ${(lag.max / 1e6 - 1).toFixed(1)} ms (goal 10; p99 ${(lag.percentile(99) / 1e6 - 1).toFixed(1)})`);
  await proof(35);
  weightedTardiness(process.env["LEHRBOOK_WT"] ?? "bench-data/wt", 40, 25);
}

async function proof(free: number): Promise<void> {
  const all = brokenKiln(80);
  const taken = all.runs.slice(free).flatMap(({ standing, daysByKiln, title }) => (standing === null ? [] : [{ kilnId: standing.kilnId, from: standing.day, to: standing.day + (daysByKiln[standing.kilnId] ?? 0), holder: title }]));
  const ground = { ...all, runs: all.runs.slice(0, free), taken: [...all.taken, ...taken.filter((one) => one.kilnId !== "kiln 0")] };
  const problem = clashProblem(ground, NO_WISHES, weightsFor("least-late", DEFAULT_WEIGHTS));
  const start = performance.now();
  const { plan, bound } = await settleInWorker({ kind: "days", problem, seed: 1, iterations: null }, 10).result;
  const gap = plan.cost <= bound + 1e-6 ? "proven" : `not proven, bound ${bound.toFixed(1)}`;
  print(`cheapest of ${free} bookings that may move: ${((performance.now() - start) / 1000).toFixed(2)} s (goal 10; ${gap}, cost ${plan.cost.toFixed(1)})`);
}

/** A calendar booked first come, first served, whose first kiln then breaks for three weeks. */
function brokenKiln(bookings: number): ClashGround {
  const random = seeded(11);
  const below = (n: number): number => Math.floor(random() * n);
  const kilns = Array.from({ length: KILNS }, (_, i) => ({ kilnId: `kiln ${i}`, name: `Kiln ${i}`, powerKw: 9 }));
  const staffed = (day: number): boolean => day % 7 < 5;
  const on = (amount: number): number[] => Array.from({ length: DAYS }, (_, day) => (staffed(day) ? amount : 0));
  const next = (day: number): number => (staffed(day) ? day : next(day + 1));
  const free = kilns.map(() => 1);
  const runs = Array.from({ length: bookings }, (_, i): MovableRun => {
    const first = below(KILNS);
    const fits = [first, (first + 1 + below(3)) % KILNS, (first + 5) % KILNS, (first + 8) % KILNS];
    const days = 8 + below(13);
    const kiln = fits.reduce((best, one) => ((free[one] ?? 0) < (free[best] ?? 0) ? one : best));
    const day = next(free[kiln] ?? 1);
    free[kiln] = next(day + days) + below(4);
    return {
      runId: `run ${i}`, title: `Run ${i}`, memberName: `Member ${i % 30}`, firmness: i % 5 === 0 ? "promised" : "booked", standing: { kilnId: `kiln ${kiln}`, day },
      daysByKiln: Object.fromEntries(fits.map((one) => [`kiln ${one}`, days])), earliest: Math.min(day, 1 + below(20)), latest: null, neededBy: day + days + below(21), importance: 1 + below(3),
      steams: true, hands: 1, heatingDays: 2,
    };
  });
  return { kilns, runs, taken: [{ kilnId: "kiln 0", from: 10, to: 31, holder: "a burnt element" }], handsOn: on(3), liftsOn: on(16), steamersOn: on(4), steamWindow: 21, powerLeftKw: null };
}

/** The OR-Library's weighted tardiness instances of 40 jobs, where they are at hand. */
function weightedTardiness(folder: string, size: number, most: number): void {
  const [file, optima] = [`${folder}/wt${size}.txt`, `${folder}/wtopt${size}.txt`];
  if (!existsSync(file) || !existsSync(optima)) {
    print(`weighted tardiness, ${size} jobs: skipped, the OR-Library's files are not here`);
    return;
  }
  const numbers = (path: string): number[] => readFileSync(path, "utf8").trim().split(/\s+/).map(Number);
  const [all, best] = [numbers(file), numbers(optima)];
  const instances = Math.min(most, Math.floor(all.length / (3 * size)));
  const start = performance.now();
  let reached = 0;
  for (let i = 0; i < instances; i++) {
    const at = (part: number, job: number): number => all[i * 3 * size + part * size + job] ?? NaN;
    const asks = Array.from({ length: size }, (_, job) => ({ id: `${job}`, releaseH: 0, dueH: at(2, job), weight: at(1, job), hours: [at(0, job)] }));
    const { cost } = settleHours({ kilns: ["one"], asks, taken: [[]] }, 1, clockBudget(0.2, () => performance.now() / 1000), { onBetter: () => undefined, onBound: () => undefined });
    if (Math.abs(cost - (best[i] ?? NaN)) < 1e-6) reached++;
  }
  print(`weighted tardiness, first ${instances} of wt${size}: ${reached} at the published optimum in ${((performance.now() - start) / 1000).toFixed(1)} s`);
}
