import type { CastingPlan, Stage } from "@/lib/domain/firing/casting-plan";
import { J_PER_KWH, stageHeats, waterJoules, type StageHeat } from "@/lib/domain/firing/energy";
import { loadedKiln, type HeatedKiln } from "@/lib/domain/firing/loaded-kiln";
import { SECONDS_PER_HOUR } from "@/lib/domain/units";

/** A stretch of a firing, in hours from door closed, over which the drawn power changes evenly; kW at both ends. */
export type PowerSpan = { readonly fromH: number; readonly toH: number; readonly fromKw: number; readonly toKw: number };

/** Power over time of a whole firing, without gaps, and the energy drawn by the end of every span. */
export type PowerCurve = { readonly spans: readonly PowerSpan[]; readonly endsKWh: readonly number[]; readonly kWh: number };

/** The water of a mould leaves below this or above it. */
const BOILING_C = 100;

/**
 * What a planned firing draws hour by hour in a kiln: loss at each temperature, the heat of warming,
 * and the water spread over the hours of Dry, free water below 100 °C and bound water above. It adds up to
 * the plan's own energy: where a cooling kiln needs no heat at one end of a stage, what the stage needs
 * in all lies at the other. Means over minutes; elements themselves switch on and off.
 */
export function firingPower(plan: Pick<CastingPlan, "glass" | "mould" | "pot" | "firing">, kiln: HeatedKiln | undefined): PowerCurve {
  const { stages } = plan.firing;
  const free = dryHours(stages, (toC) => toC <= BOILING_C);
  const bound = dryHours(stages, (toC) => toC > BOILING_C);
  const water = waterJoules(plan);
  const steamKw = ({ stage, toC }: Stage): number => (stage !== "Dry" ? 0 : toC <= BOILING_C ? kw(water.free, free) : kw(water.bound, bound));
  let atH = 0;
  const spans = stageHeats(stages, plan, loadedKiln(kiln, plan)).flatMap((heat) => {
    const from = atH;
    atH += heat.stage.hours;
    return spansOf(heat, from).map((span) => ({ ...span, fromKw: span.fromKw + steamKw(heat.stage), toKw: span.toKw + steamKw(heat.stage) }));
  });
  let kWh = 0;
  const endsKWh = spans.map((span) => (kWh += kWhOf(span, span.toH)));
  return { spans, endsKWh, kWh };
}

/** Energy drawn from door closed until an hour, kWh; all of it after the end. */
export function kWhUntil({ spans, endsKWh, kWh }: PowerCurve, hour: number): number {
  let [low, high] = [0, spans.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((spans[middle]?.toH ?? Infinity) <= hour) low = middle + 1;
    else high = middle;
  }
  const span = spans[low];
  if (span === undefined) return kWh;
  return (endsKWh[low - 1] ?? 0) + kWhOf(span, Math.max(hour, span.fromH));
}

function kWhOf({ fromH, toH, fromKw, toKw }: PowerSpan, until: number): number {
  const hours = until - fromH;
  return hours === 0 ? 0 : hours * (fromKw + ((toKw - fromKw) * hours) / (2 * (toH - fromH)));
}

/** One stage's power without its water: two spans where it falls to nothing on the way. */
function spansOf({ stage: { hours }, fromLossW, toLossW, climbW, joules }: StageHeat, fromH: number): PowerSpan[] {
  if (!(hours > 0)) return [];
  const [first, last] = [fromLossW + climbW, toLossW + climbW];
  const toH = fromH + hours;
  if (!(joules > 0)) return [{ fromH, toH, fromKw: 0, toKw: 0 }];
  if (first >= 0 && last >= 0) return [{ fromH, toH, fromKw: first / 1000, toKw: last / 1000 }];
  const zeroH = fromH + hours * (first / (first - last));
  // A triangle with the stage's energy: what it needs, drawn while it needs it.
  const peakKw = (hours_: number) => (2 * joules) / J_PER_KWH / hours_;
  return first > 0
    ? [{ fromH, toH: zeroH, fromKw: peakKw(zeroH - fromH), toKw: 0 }, { fromH: zeroH, toH, fromKw: 0, toKw: 0 }]
    : [{ fromH, toH: zeroH, fromKw: 0, toKw: 0 }, { fromH: zeroH, toH, fromKw: 0, toKw: peakKw(toH - zeroH) }];
}

function dryHours(stages: readonly Stage[], here: (toC: number) => boolean): number {
  return stages.reduce((sum, { stage, toC, hours }) => sum + (stage === "Dry" && here(toC) ? hours : 0), 0);
}

function kw(joules: number, hours: number): number {
  return hours > 0 ? joules / (hours * SECONDS_PER_HOUR) / 1000 : 0;
}
