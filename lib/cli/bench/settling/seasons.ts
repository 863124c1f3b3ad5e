import type { DayProblem } from "@/lib/domain/settling/days/day-problem";
import { verifyDays } from "@/lib/domain/settling/verify";
import { settleInWorker } from "@/lib/server/settling/settle-in-worker";
import { crowdedSeason } from "../world/crowded-season";
import { knownSeasons, seasonProblem } from "./instances";
import { above, mean, say, timed } from "./say";

const SECONDS = 15;
const SAME = 1e-6;
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
  for (const { name, problem, best } of known) gaps.push(await gapOf(name, problem, 1, best, { best }));
  sum("seasons with a known optimum", gaps);
}

const SIZES = [[3, 20], [6, 40], [12, 80]] as const;

/** The same on seasons nobody has seen, against the optimum where the quick run itself proves it, and else against its own bound. */
export async function benchFreshSeasons(): Promise<void> {
  const gaps: Gap[] = [];
  for (const [kilns, asks] of SIZES) for (const replan of [false, true]) gaps.push(await gapOf(nameOf(kilns, asks, 301, replan), seasonProblem(crowdedSeason({ kilns, asks, seed: 301, replan })), 1));
  sum("fresh seasons", gaps);
}

/** More of them; the optimum is proven by a longer run where that does it in time, and else its bound is taken. */
export async function benchProvenSeasons(): Promise<void> {
  for (const fewHands of [false, true]) {
    const gaps: Gap[] = [];
    for (const seed of [101, 102, 103]) {
      for (const [kilns, asks] of SIZES) {
        // Fewer than two lifts a day there are never.
        if (fewHands && kilns < 12) continue;
        for (const replan of [false, true]) {
          const problem = seasonProblem(crowdedSeason({ kilns, asks, seed, replan, fewHands }));
          const proof = await settleInWorker({ kind: "days", problem, seed: 99, iterations: null }, PROOF_SECONDS).result;
          gaps.push(await gapOf(nameOf(kilns, asks, seed, replan), problem, 1, proof.bound, { best: proof.plan.cost }));
        }
      }
    }
    sum(fewHands ? "fresh seasons with few hands" : "fresh seasons", gaps);
  }
}

function nameOf(kilns: number, asks: number, seed: number, replan: boolean): string {
  return `${replan ? "most of them booked" : "none booked"}, ${kilns} kilns, ${asks} asks, seed ${seed}`;
}

/** `least`: the optimum where it is proven, or a bound. */
type Gap = { readonly cost: number; readonly least: number; readonly isProven: boolean };

/** `known`: a bound known beside that of the quick run; `best`: the cost of a plan known beside its own. */
async function gapOf(name: string, problem: DayProblem, seed: number, known = 0, { best = Infinity }: { readonly best?: number } = {}): Promise<Gap> {
  const { value, cpu } = await timed(() => settleInWorker({ kind: "days", problem, seed, iterations: null }, SECONDS).result);
  if (value.plan.kind !== "days") throw new Error("A season in days came back in hours.");
  const { placements, cost, leftOut } = value.plan;
  const faults = leftOut > 0 ? [`${leftOut} left out`] : verifyDays(problem, placements, cost);
  if (faults.length > 0) say(`  ${name}`, faults.join(" "));
  const least = Math.max(known, value.bound);
  const isProven = Math.min(cost, best) <= least + SAME;
  const told = isProven ? `the proven optimum ${least.toFixed(1)}` : `the bound ${least.toFixed(1)}${best < cost - SAME ? `, best known ${best.toFixed(1)}` : ""}`;
  say(`  ${name}`, `${cost.toFixed(1)} against ${told}; own bound ${value.bound.toFixed(1)}, ${cpu.toFixed(1)} s computing`);
  return { cost, least, isProven };
}

function sum(name: string, gaps: readonly Gap[]): void {
  for (const isProven of [true, false]) {
    const those = gaps.filter((gap) => gap.isProven === isProven);
    if (those.length === 0) continue;
    const crowded = those.filter(({ least }) => least > NEARLY_EMPTY).map(({ cost, least }) => above(cost, least));
    const empty = those.filter(({ least }) => !(least > NEARLY_EMPTY)).map(({ cost, least }) => cost - least);
    const said = [
      ...(crowded.length === 0 ? [] : [`${crowded.length} ${mean(crowded).toFixed(2)} % above it on average, worst ${Math.max(...crowded).toFixed(2)} % in ${SECONDS} s (goal 1.5, 3)`]),
      ...(empty.length === 0 ? [] : [`${empty.length} near-empty ones by at most ${Math.max(...empty).toFixed(1)} weight-days (goal 4)`]),
    ];
    say(isProven ? `${name}, optimum proven` : `${name}, against a bound only`, said.join("; "));
  }
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
