import { monitorEventLoopDelay } from "node:perf_hooks";
import { NO_WISHES } from "@/lib/domain/settling/clash/clash-ground";
import { clashProblem } from "@/lib/domain/settling/clash/clash-problem";
import { AIMS, DEFAULT_WEIGHTS, weightsFor } from "@/lib/domain/settling/clash/weights";
import { verifyDays } from "@/lib/domain/settling/verify";
import { settleClashInWorker } from "@/lib/server/settling/settle-clash-in-worker";
import { warmThreads } from "@/lib/server/settling/threads";
import { settleInWorker } from "@/lib/server/settling/settle-in-worker";
import { brokenKiln, fewMayMove } from "../world/broken-kiln";
import { busyMs } from "./main-thread";
import { say, timed } from "./say";

const sayDay = (day: number): string => `day ${day}`;
const SEEDS = [1, 2, 3, 4, 5];
/** Nobody asks sooner after having looked at the clashes, which starts the threads. */
const PAUSE_MS = 1_500;
const THREADS = 3;

/** Three ways out of one clash, checked again by the verifier, and what the thread that asks feels meanwhile. */
export async function benchWays(): Promise<void> {
  for (const seed of SEEDS.slice(0, 3)) {
    const ground = brokenKiln(80, seed);
    warmThreads(THREADS);
    await new Promise((resolve) => setTimeout(resolve, PAUSE_MS));
    const lag = monitorEventLoopDelay({ resolution: 1 });
    const busy = busyMs();
    lag.enable();
    const { value: ways, seconds, cpu } = await timed(() => settleClashInWorker({ ground, wishes: NO_WISHES, seconds: 1.9, sayDay }));
    lag.disable();
    const longest = busy();
    if (!ways.ok) throw new Error(ways.problems[0].message);
    const standing = ways.value.filter(({ aim, placements, cost }) => verifyDays(clashProblem(ground, NO_WISHES, weightsFor(aim, DEFAULT_WEIGHTS)), placements, cost).length === 0);
    const gaps = ways.value.map(({ atMostPercent }) => (atMostPercent === null ? "unknown" : `${atMostPercent} %`)).join(", ");
    say(`ways out, 12 kilns, 80 bookings, clash ${seed}`, `${ways.value.length} different, ${standing.length} stand, ${seconds.toFixed(2)} s (goal 3, 3, 2), ${cpu.toFixed(1)} s computing, at most ${gaps} from the best`);
    say("  lag of the thread that asks", `most ${(lag.max / 1e6 - 1).toFixed(1)} ms, p99 ${(lag.percentile(99) / 1e6 - 1).toFixed(1)} (goal 10)${longest === undefined ? "" : `; it computed ${longest.toFixed(1)} ms at a stretch at most`}`);
  }
}

/** The cheapest settlement proven to be the cheapest, for each aim, when few bookings may move. */
export async function benchProofs(): Promise<void> {
  for (const free of [16, 35]) {
    const found: string[] = [];
    let [slowest, cpuAll, proven] = [0, 0, 0];
    for (const seed of SEEDS) {
      const ground = fewMayMove(brokenKiln(80, seed), free);
      for (const aim of AIMS) {
        const problem = clashProblem(ground, NO_WISHES, weightsFor(aim, DEFAULT_WEIGHTS));
        const { value, seconds, cpu } = await timed(() => settleInWorker({ kind: "days", problem, seed: 1, iterations: null }, 10).result);
        const { plan, bound } = value;
        slowest = Math.max(slowest, seconds);
        cpuAll += cpu;
        if (plan.leftOut === 0 && plan.cost <= bound + 1e-6) proven++;
        else found.push(`${aim} of clash ${seed}: ${plan.cost.toFixed(1)}, bound ${bound.toFixed(1)}`);
      }
    }
    say(`cheapest of ${free} bookings that may move`, `${proven} of ${SEEDS.length * AIMS.length} proven, slowest ${slowest.toFixed(2)} s (goal 10), ${(cpuAll / (SEEDS.length * AIMS.length)).toFixed(1)} s computing each${found.length === 0 ? "" : `; not proven: ${found.join("; ")}`}`);
  }
}

/** Counted iterations give the same plan whatever else the machine does. */
export async function benchSamePlan(): Promise<void> {
  const problem = clashProblem(brokenKiln(80, 1), NO_WISHES, weightsFor("least-late", DEFAULT_WEIGHTS));
  const run = async (): Promise<string> => JSON.stringify((await settleInWorker({ kind: "days", problem, seed: 7, iterations: 2_000 }, 60).result).plan);
  const [one, again] = [await run(), await run()];
  say("same seed and iterations", one === again ? "the same plan" : "OTHER PLANS");
}
