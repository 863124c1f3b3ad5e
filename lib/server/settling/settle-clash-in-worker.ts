import type { ClashGround, Wishes } from "@/lib/domain/settling/clash/clash-ground";
import { problemFor, reallyDifferent, settlementFrom } from "@/lib/domain/settling/clash/settle-clash";
import type { SayDay } from "@/lib/domain/settling/days/day-problem-faults";
import type { Settlement } from "@/lib/domain/settling/clash/settlement";
import { AIMS, DEFAULT_WEIGHTS, type Aim, type SettlingWeights } from "@/lib/domain/settling/clash/weights";
import { wishProblems } from "@/lib/domain/settling/clash/wish-problems";
import { ok, refusalOf, type Outcome } from "@/lib/domain/refusal";
import { settleInWorker, type Progress } from "@/lib/server/settling/settle-in-worker";

export type ClashTask = {
  readonly ground: ClashGround;
  readonly wishes: Wishes;
  readonly weights?: SettlingWeights;
  readonly seconds: number;
  readonly seed?: number;
  /** Counted iterations make the plans repeat; null goes by the seconds alone. */
  readonly iterations?: number | null;
  readonly sayDay: SayDay;
  /** Told a few times a second how far each of them is. */
  readonly onProgress?: ((reached: Progress & { readonly aim: Aim }) => void) | undefined;
};

/** One after another in a process: three threads at a time are enough for its cores. */
let before: Promise<unknown> = Promise.resolve();

/** The ways out of a clash, as `settleClash` gives them, worked out side by side in threads of their own. */
export function settleClashInWorker(task: ClashTask): Promise<Outcome<readonly Settlement[]>> {
  const own = before.then(() => settleNow(task));
  before = own.catch(() => undefined);
  return own;
}

async function settleNow({ ground, wishes, weights = DEFAULT_WEIGHTS, seconds, seed = 1, iterations = null, sayDay, onProgress }: ClashTask): Promise<Outcome<readonly Settlement[]>> {
  const refused = refusalOf(wishProblems(ground, wishes, sayDay));
  if (refused !== undefined) return refused;
  const each = await Promise.all(
    AIMS.map(async (aim): Promise<Outcome<Settlement>> => {
      const problem = problemFor(ground, wishes, weights, aim, sayDay);
      if (!problem.ok) return problem;
      const { plan, bound } = await settleInWorker({ kind: "days", problem: problem.value, seed, iterations }, seconds, (reached) => onProgress?.({ aim, ...reached })).result;
      if (plan.kind !== "days") throw new Error("A settlement in days came back in hours.");
      return settlementFrom(ground, aim, problem.value, plan, bound, sayDay);
    }),
  );
  const found: Settlement[] = [];
  for (const one of each) {
    if (!one.ok) return one;
    found.push(one.value);
  }
  return ok(reallyDifferent(found));
}
