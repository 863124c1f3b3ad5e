import type { DayProblem } from "@/lib/domain/settling/days/day-problem";
import { verifyDays } from "@/lib/domain/settling/verify";
import { settleInWorker } from "@/lib/server/settling/settle-in-worker";
import { crowdedSeason } from "../world/crowded-season";
import { knownSeasons, seasonProblem } from "./instances";
import { above, mean, say, timed } from "./say";

const SECONDS = 15;
/** Below so many weight-days a calendar counts as near-empty, where per cent say nothing. */
const NEARLY_EMPTY = 100;
/** Long enough to prove most of them, to know what the quick run was worth. */
const PROOF_SECONDS = 150;

/** Days to settle 20 to 80 asks in, where the optimum is published beside the instance. */
export async function benchKnownSeasons(): Promise<void> {
  const known = knownSeasons().filter(({ problem, isProven }) => isProven && problem.jobs.length <= 80);
  if (known.length === 0) {
    say("seasons with a known optimum", "skipped, the instances are not at hand");
    return;
  }
  const gaps: Gap[] = [];
  for (const { name, problem, best } of known) gaps.push(await gapOf(name, problem, 1, best));
  sum("seasons with a known optimum", gaps);
}

/** The same on seasons nobody has seen; the optimum is proven by a longer run, or its bound is taken for it. */
export async function benchFreshSeasons(): Promise<void> {
  const gaps: Gap[] = [];
  for (const seed of [101, 102]) {
    for (const [kilns, asks] of [[3, 20], [6, 40], [12, 80]] as const) {
      for (const replan of [false, true]) {
        const problem = seasonProblem(crowdedSeason({ kilns, asks, seed, replan }));
        const proof = await settleInWorker({ kind: "days", problem, seed: 99, iterations: null }, PROOF_SECONDS).result;
        const isProven = proof.plan.cost <= proof.bound + 1e-6;
        gaps.push(await gapOf(`${replan ? "replan" : "fresh"} ${kilns}/${asks} seed ${seed}${isProven ? "" : " (against a bound)"}`, problem, 1, proof.bound));
      }
    }
  }
  sum("fresh seasons", gaps);
}

type Gap = { readonly cost: number; readonly least: number };

async function gapOf(name: string, problem: DayProblem, seed: number, least: number): Promise<Gap> {
  const { value, cpu } = await timed(() => settleInWorker({ kind: "days", problem, seed, iterations: null }, SECONDS).result);
  if (value.plan.kind !== "days") throw new Error("A season in days came back in hours.");
  const { placements, cost, leftOut } = value.plan;
  const faults = leftOut > 0 ? [`${leftOut} left out`] : verifyDays(problem, placements, cost);
  if (faults.length > 0) say(`  ${name}`, faults.join(" "));
  say(`  ${name}`, `${cost.toFixed(1)} against ${least.toFixed(1)}, own bound ${value.bound.toFixed(1)}, ${cpu.toFixed(1)} s computing`);
  return { cost, least };
}

function sum(name: string, gaps: readonly Gap[]): void {
  const crowded = gaps.filter(({ least }) => least > NEARLY_EMPTY).map(({ cost, least }) => above(cost, least));
  const empty = gaps.filter(({ least }) => !(least > NEARLY_EMPTY)).map(({ cost, least }) => cost - least);
  const quiet = empty.length === 0 ? "" : `; ${empty.length} near-empty ones by at most ${Math.max(...empty).toFixed(1)} weight-days (goal 4)`;
  say(name, `${crowded.length} of them ${mean(crowded).toFixed(2)} % above on average, worst ${Math.max(0, ...crowded).toFixed(2)} % in ${SECONDS} s (goal 1.5, 3)${quiet}`);
}

/** When a first bound is on the screen for 80 asks, and what the stronger one is worth after five seconds. */
export async function benchBounds(): Promise<void> {
  for (const replan of [false, true]) {
    const problem = seasonProblem(crowdedSeason({ kilns: 12, asks: 80, seed: 201, replan }));
    const start = performance.now();
    let first: string | undefined;
    let stronger = "";
    const running = settleInWorker({ kind: "days", problem, seed: 1, iterations: null }, 6, ({ cost, bound }) => {
      const seconds = (performance.now() - start) / 1000;
      const line = `${bound.toFixed(1)} below ${cost.toFixed(1)} after ${seconds.toFixed(2)} s`;
      if (bound > 0) first ??= line;
      if (seconds <= 5) stronger = line;
    });
    const { plan, bound } = await running.result;
    say(`bound for 80 asks, ${replan ? "most of them booked" : "none booked"}`, `first ${first ?? "none"} (goal 1), stronger ${stronger} (goal 5); in the end ${bound.toFixed(1)} below ${plan.cost.toFixed(1)}`);
  }
}
