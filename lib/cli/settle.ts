import { readSettleRequest, type SettleAsked, type SettleRequest } from "@/lib/contracts/settle";
import { verifyDays } from "@/lib/domain/settling/verify";
import { verifyHours } from "@/lib/domain/settling/verify-hours";
import { settleHere, type Settled } from "@/lib/server/settling/settle-here";
import { commandGivenAtMs } from "./command-given";
import { endWithFaults, readJson } from "./read-json";

/** npm run --silent settle -- instance.json: one JSON document on standard output, or exit 2 with a line per fault. */
const json = readJson(process.argv[2]);
if (!json.ok) endWithFaults([json.sentence]);
else {
  const request = readSettleRequest(json.value);
  if (request.ok) await settle(request.value);
  else endWithFaults(request.problems.map((problem) => problem.message));
}

/** The budget counts from when the command was given, so that starting is part of it. */
async function settle({ asked, limits }: SettleRequest): Promise<void> {
  const startedAtMs = commandGivenAtMs();
  const task = { ...asked, seed: limits.seed, iterations: limits.iterations };
  const settled = await settleHere(task, limits.budgetSeconds, startedAtMs);
  const missing = leftOut(asked, settled, limits.budgetSeconds);
  if (missing.length > 0) {
    endWithFaults(missing);
    return;
  }
  const faults = verified(asked, settled);
  if (faults.length > 0) throw new Error(`The plan found does not stand: ${faults.join(" ")}`);
  const { cost } = settled.plan;
  process.stdout.write(`${JSON.stringify({ placements: written(asked, settled), cost, bound: Math.min(settled.bound, cost), seconds: Number(((Date.now() - startedAtMs) / 1000).toFixed(3)) })}\n`);
}

function leftOut(asked: SettleAsked, { plan }: Settled, seconds: number): string[] {
  if (asked.kind !== "days" || plan.kind !== "days" || plan.leftOut === 0) return [];
  if (plan.isCutShort === true) return [`Nothing was found within ${seconds} s: ${plan.leftOut} of ${asked.problem.jobs.length} jobs had no place yet when they were over. Allow more.`];
  const placed = new Set(plan.placements.map(({ job }) => job));
  const last = asked.problem.horizon - 1;
  return asked.problem.jobs.flatMap((job, i) => (placed.has(i) ? [] : [`No place was found for ${job.name} on a calendar that ends on day ${last}.`]));
}

function verified(asked: SettleAsked, { plan }: Settled): string[] {
  if (asked.kind === "days") return plan.kind === "days" ? verifyDays(asked.problem, plan.placements, plan.cost) : [];
  return plan.kind === "hours" ? verifyHours(asked.problem, plan.placements) : [];
}

function written(asked: SettleAsked, { plan }: Settled): unknown[] {
  if (plan.kind === "days") return plan.placements.map(({ job, kiln, start, end, steam }) => ({ job, kiln, s: start, e: end, steam }));
  if (asked.kind !== "hours") return [];
  return plan.placements.map(({ ask, kiln, fromH, toH }) => ({ ask: asked.problem.asks[ask]?.id, kiln: asked.problem.kilns[kiln], fromH, toH }));
}
