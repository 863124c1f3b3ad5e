import { takes, type Annealing } from "@/lib/domain/settling/annealing";
import type { Candidates } from "@/lib/domain/settling/days/class-candidates";
import type { ClassPlan } from "@/lib/domain/settling/days/class-plan";
import type { Effort } from "@/lib/domain/settling/effort";
import { shuffle, type Random } from "@/lib/domain/settling/random";

const MOST_REMOVED = 5;
const BLINK = 0.02;
/** Starts so near each other hold a kiln at the same time, more often than not. */
const NEAR = 12;
const PROMISING = 25;
const DRAWS = 4;

/** Puts jobs in one after another, each at its cheapest choice that fits; what fits nowhere is left out, and all that is left when `isOver`. */
export function insertCheapest(plan: ClassPlan, candidates: Candidates, jobs: readonly number[], random: Random | null, isOver: () => boolean = () => false): void {
  for (const job of jobs) {
    if (isOver()) return;
    const own = candidates[job]!;
    for (let i = 0; i < own.length; i++) {
      if (random !== null && random.next() < BLINK) continue;
      if (!plan.fits(job, own[i]!)) continue;
      plan.put(job, own[i]!);
      break;
    }
  }
}

/** Ruin and recreate with annealing on classes and days; leaves the plan at the best it came upon. */
export function searchClasses(plan: ClassPlan, candidates: Candidates, random: Random, effort: Effort, annealing: Annealing): void {
  let best = Int32Array.from(plan.choice);
  let bestCost = plan.cost;
  const leftOut = (): number[] => Array.from(plan.choice.keys()).filter((job) => plan.choice[job] === -1);
  let missing = leftOut();
  for (let iteration = 0; ; iteration++) {
    const spent = effort.spent(iteration);
    if (spent >= 1) break;
    const before = plan.cost;
    const removed = neighbours(plan, candidates, random);
    const choices = removed.map((job) => plan.choice[job]!);
    for (const job of removed) plan.take(job);
    const wanted = [...removed, ...missing];
    shuffle(wanted, wanted.length, random);
    insertCheapest(plan, candidates, wanted, random);
    if (takes(plan.cost - before, spent, annealing, random)) {
      if (missing.length > 0 || wanted.some((job) => plan.choice[job] === -1)) missing = leftOut();
      if (plan.cost < bestCost - 1e-6) {
        bestCost = plan.cost;
        best = Int32Array.from(plan.choice);
      }
      continue;
    }
    for (const job of wanted) if (plan.choice[job]! >= 0) plan.take(job);
    removed.forEach((job, i) => plan.put(job, choices[i]!));
  }
  restore(plan, best);
}

/** Of a few runs drawn, the one that pays most above its cheapest choice: it is worth making room for. */
function worstOf(plan: ClassPlan, candidates: Candidates, random: Random): number {
  let worst = -1;
  let most = -1;
  for (let draw = 0; draw < DRAWS; draw++) {
    const job = random.below(plan.tables.jobs);
    const choice = plan.choice[job]!;
    const first = candidates[job]![0];
    if (choice < 0 || first === undefined) continue;
    const above = plan.costOf(job, choice) - plan.costOf(job, first);
    if (above <= most) continue;
    most = above;
    worst = job;
  }
  return worst;
}

/** A run and a few others that stand where it does, or where it would rather be. */
function neighbours(plan: ClassPlan, candidates: Candidates, random: Random): number[] {
  const { choice, tables } = plan;
  const { span, jobs } = tables;
  const seed = random.below(2) === 0 ? worstOf(plan, candidates, random) : random.below(jobs);
  if (seed < 0 || choice[seed]! < 0) return [];
  const own = candidates[seed]!;
  const wanted = random.below(2) === 0 || own.length === 0 ? choice[seed]! : own[random.below(Math.min(PROMISING, own.length))]!;
  const removed = [seed];
  const count = 1 + random.below(MOST_REMOVED);
  // Begins anywhere, so that of many that stand there others come out every time.
  const offset = random.below(jobs);
  for (let turn = 0; turn < jobs && removed.length < count; turn++) {
    const job = (turn + offset) % jobs;
    const at = choice[job]!;
    if (at < 0 || job === seed || Math.abs(at - wanted) > NEAR || Math.floor(at / span) !== Math.floor(wanted / span)) continue;
    if (random.below(2) === 0) removed.push(job);
  }
  return removed;
}

function restore(plan: ClassPlan, choices: Int32Array): void {
  for (let job = 0; job < choices.length; job++) if (plan.choice[job]! >= 0 && plan.choice[job] !== choices[job]) plan.take(job);
  for (let job = 0; job < choices.length; job++) if (choices[job]! >= 0 && plan.choice[job] !== choices[job]) plan.put(job, choices[job]!);
}
