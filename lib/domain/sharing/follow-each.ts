import type { Stage } from "@/lib/domain/firing/casting-plan";
import { planHistory, type PlanHistory } from "@/lib/domain/firing/plan-history";
import { inDigits } from "@/lib/domain/firing/figures";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { NOT_SLOWED, type GovernedLine, type JoinedCooling, type Slowed } from "./joined-cooling";
import type { GovernedStage } from "./joined-heating";
import type { PreparedSharer } from "./sharer";

/** The model is not surer of a stress than this. */
const SURE = 1.01;
/** Rates are taken back by a little more than seems needed, so that few rounds are enough. */
const CAUTION = 1.004;
const MOST_ROUNDS = 8;

export type Followed = {
  readonly lines: readonly GovernedLine[];
  /** The stress of each casting in the joined program, in the order given. */
  readonly stress: readonly PlanHistory["stress"][];
};

/**
 * Every casting is followed through the whole joined program by the transient model, behind its own mould, and
 * the way down is taken back until each keeps its own stress level, or does no worse than in its own plan alone.
 * Slower is not always gentler: less frozen in leaves less to use up in the run-down, so all are followed anew.
 */
export function followEach(sharers: readonly PreparedSharer[], before: readonly GovernedStage[], cooling: JoinedCooling): Outcome<Followed> {
  let slowed = NOT_SLOWED;
  const alone = new Map<string, PlanHistory["stress"]>();
  for (let round = 1; ; round += 1) {
    const lines = cooling.lines(slowed);
    const stages = [...before, ...lines].map(({ stage }): Stage => stage);
    const histories: PlanHistory[] = [];
    for (const { input, mesh } of sharers) {
      const history = planHistory(input, { firing: { stages, hours: 0, annealingHours: 0, peakC: 0 } }, mesh);
      if (!history.ok) return history;
      histories.push(history.value);
    }
    const over = sharers.map((sharer, i) => overOf(sharer, histories[i], alone));
    const worst = over.findIndex((one) => one.most > SURE);
    if (worst < 0) return ok({ lines, stress: histories.map(({ stress }) => stress) });
    if (round >= MOST_ROUNDS) return refuse(notKept(sharers[worst], over[worst]));
    slowed = over.reduce((sum, one) => takenBack(sum, slowed, one), slowed);
  }
}

type Over = { readonly most: number; readonly permanent: number; readonly passing: number; readonly at: keyof Slowed };

function overOf(sharer: PreparedSharer, history: PlanHistory | undefined, known: Map<string, PlanHistory["stress"]>): Over {
  if (history === undefined) return { most: Infinity, permanent: Infinity, passing: Infinity, at: "slow" };
  const { limits } = sharer;
  const { stress, moments } = history;
  const permanentMPa = Math.max(stress.permanentCentreMPa, stress.permanentSurfaceMPa);
  let permanent = permanentMPa / limits.permanentMPa;
  let passing = stress.passingMPa / limits.passingMPa;
  if (Math.max(permanent, passing) > SURE) {
    const own = known.get(sharer.castingId) ?? aloneStress(sharer);
    known.set(sharer.castingId, own);
    permanent = permanentMPa / Math.max(limits.permanentMPa, own.permanentCentreMPa, own.permanentSurfaceMPa);
    passing = stress.passingMPa / Math.max(limits.passingMPa, own.passingMPa);
  }
  const hourOf = (name: string): number => moments.find((moment) => moment.name === name)?.h ?? 0;
  const at = stress.passingAtH < hourOf("Slow cool begins") ? "drop" : stress.passingAtH < hourOf("Slow cool ends") ? "slow" : "last";
  return { most: Math.max(permanent, passing), permanent, passing, at };
}

function aloneStress({ input, alone, mesh }: PreparedSharer): PlanHistory["stress"] {
  const own = planHistory(input, alone, mesh);
  return own.ok ? own.value.stress : { permanentCentreMPa: 0, permanentSurfaceMPa: 0, passingMPa: 0, passingAtH: 0 };
}

/** A thick body is pulled while it levels, which hardly goes with the rate of the drop: taken back by this power of what is over. */
const DROP_POWER = 6;

function takenBack(sum: Slowed, from: Slowed, { permanent, passing, at }: Over): Slowed {
  const back = (key: keyof Slowed, by: number): number => Math.max(sum[key], by > SURE ? from[key] * CAUTION * by : from[key]);
  return { ...sum, slow: back("slow", Math.max(permanent, at === "slow" ? passing : 0)), [at]: Math.max(at === "slow" ? back("slow", permanent) : 0, back(at, at === "drop" ? passing ** DROP_POWER : passing)) };
}

function notKept(sharer: PreparedSharer | undefined, over: Over | undefined) {
  const title = sharer?.title ?? "";
  const percent = inDigits(100 * ((over?.most ?? 1) - 1));
  return {
    code: "stress-not-kept", field: "stress", allowed: "a looser stress level, or castings nearer in thickness",
    message: `No joined program was found that keeps ${title} within its stress level: it stays ${percent} % above. Allowed is a looser level, or a firing of its own.`,
  };
}
