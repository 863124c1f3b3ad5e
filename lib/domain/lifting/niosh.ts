import { ok, refuse, refusalOf, type Outcome, type Problem } from "@/lib/domain/refusal";
import { frequencyMultiplier, type LiftingDuration } from "./niosh-frequency";

/**
 * The revised NIOSH lifting equation (publication 94-110, metric constants; read from a copy):
 *
 *     limit = 23 kg · 25/H · (1 − 0.003·|V − 75|) · (0.82 + 4.5/D) · (1 − 0.0032·A) · FM · CM
 *
 * Lengths cm, angle degrees, masses kg. Both ends of the lift are judged and the lower limit counts,
 * because a mould is always set down with care. Out of its range the equation would read zero; here
 * that is a refusal. It says nothing about hot, cramped, one-handed, carried or shared lifts, which is
 * most work at a kiln: the filter in `hse-filter.ts` leads, this index is the detail beside it.
 */
export type Coupling = "good" | "fair" | "poor";

export type LiftEnd = {
  /** From the middle of the ankles to the hands. */
  readonly horizontalCm: number;
  /** From the floor to the hands. */
  readonly verticalCm: number;
  /** How far the load is off the straight-ahead line. */
  readonly asymmetryDeg: number;
};

export type OutsideScope = "hot" | "cramped" | "one-handed" | "carried" | "team" | "seated" | "unstable" | "slippery";

export type NioshLift = {
  readonly loadKg: number;
  readonly origin: LiftEnd;
  readonly destination: LiftEnd;
  readonly liftsPerMinute: number;
  readonly duration: LiftingDuration;
  /** Moulds are rough, wide and off-centre: "poor" unless they have handles. */
  readonly coupling: Coupling;
  readonly conditions?: readonly OutsideScope[];
};

export type Multipliers = {
  readonly horizontal: number;
  readonly vertical: number;
  readonly distance: number;
  readonly asymmetry: number;
  readonly frequency: number;
  readonly coupling: number;
};

export type EndLimit = { readonly multipliers: Multipliers; readonly limitKg: number; readonly index: number };

export type NioshResult = {
  readonly origin: EndLimit;
  readonly destination: EndLimit;
  /** The lower of the two limits, kg, and the index load / limit that belongs to it. */
  readonly limitKg: number;
  readonly index: number;
  /** Why the index is only a hint here; empty when the method covers the lift. */
  readonly outsideScope: readonly OutsideScope[];
};

const LOAD_CONSTANT_KG = 23;

const COUPLING: Readonly<Record<Coupling, readonly [below75: number, from75: number]>> = {
  good: [1, 1],
  fair: [0.95, 1],
  poor: [0.9, 0.9],
};

export function horizontalMultiplier(cm: number): number {
  return 25 / Math.max(cm, 25); // Nearer than 25 cm counts as 25: the publication's own rule.
}

export function verticalMultiplier(cm: number): number {
  return 1 - 0.003 * Math.abs(cm - 75);
}

export function distanceMultiplier(cm: number): number {
  return 0.82 + 4.5 / Math.max(cm, 25); // Shorter than 25 cm counts as 25: the publication's own rule.
}

export function asymmetryMultiplier(deg: number): number {
  return 1 - 0.0032 * deg;
}

/** The coupling multiplier at the height where it is judged. */
export function couplingMultiplier(coupling: Coupling, verticalCm: number): number {
  return COUPLING[coupling][verticalCm < 75 ? 0 : 1];
}

/** Limit and index of one lift, or which input is outside the equation's range. */
export function assessLift(lift: NioshLift): Outcome<NioshResult> {
  const refusal = refusalOf([...loadProblems(lift), ...endProblems("origin", lift.origin), ...endProblems("destination", lift.destination)]);
  if (refusal !== undefined) return refusal;
  const frequency = frequencyMultiplier(lift.liftsPerMinute, lift.duration, lift.origin.verticalCm);
  if (!frequency.ok) return frequency;
  const origin = endLimit(lift, lift.origin, frequency.value);
  const destination = endLimit(lift, lift.destination, frequency.value);
  const { limitKg, index } = origin.limitKg <= destination.limitKg ? origin : destination;
  return ok({ origin, destination, limitKg, index, outsideScope: lift.conditions ?? [] });
}

function endLimit(lift: NioshLift, end: LiftEnd, frequency: number): EndLimit {
  const multipliers: Multipliers = {
    horizontal: horizontalMultiplier(end.horizontalCm),
    vertical: verticalMultiplier(end.verticalCm),
    distance: distanceMultiplier(Math.abs(lift.destination.verticalCm - lift.origin.verticalCm)),
    asymmetry: asymmetryMultiplier(end.asymmetryDeg),
    frequency,
    coupling: couplingMultiplier(lift.coupling, end.verticalCm),
  };
  const limitKg = Object.values(multipliers).reduce((product, factor) => product * factor, LOAD_CONSTANT_KG);
  return { multipliers, limitKg, index: lift.loadKg / limitKg };
}

/** One task of a job made of several: its own index with its own frequency, and the index as if done rarely. */
export type CompositeTask = {
  readonly singleTaskIndex: number;
  readonly frequencyIndependentIndex: number;
  readonly liftsPerMinute: number;
  readonly originCm: number;
};

/**
 * Composite lifting index of several tasks done in turn (NIOSH 94-110): the hardest task counts with
 * its own index, each further one adds what its frequency adds on top of those before it.
 */
export function compositeIndex(tasks: readonly [CompositeTask, ...CompositeTask[]], duration: LiftingDuration): Outcome<number> {
  const [hardest, ...rest] = [...tasks].sort((a, b) => b.singleTaskIndex - a.singleTaskIndex) as [CompositeTask, ...CompositeTask[]];
  let index = hardest.singleTaskIndex;
  let perMinute = hardest.liftsPerMinute;
  for (const task of rest) {
    const before = frequencyMultiplier(perMinute, duration, task.originCm);
    if (!before.ok) return before;
    perMinute += task.liftsPerMinute;
    const after = frequencyMultiplier(perMinute, duration, task.originCm);
    if (!after.ok) return after;
    index += task.frequencyIndependentIndex * (1 / after.value - 1 / before.value);
  }
  return index >= 0 ? ok(index) : refuse(outside("tasks", index, "indices of 0 or more"));
}

function loadProblems({ loadKg }: NioshLift): Problem[] {
  return loadKg > 0 && loadKg < Infinity ? [] : [outside("loadKg", loadKg, "more than 0 kg")];
}

/** The vertical travel needs no check of its own: with both heights in 0 to 175 cm it is too. */
function endProblems(name: "origin" | "destination", end: LiftEnd): Problem[] {
  const problems: Problem[] = [];
  const { horizontalCm, verticalCm, asymmetryDeg } = end;
  if (!(horizontalCm > 0 && horizontalCm <= 63)) {
    problems.push(outside(`${name}.horizontalCm`, horizontalCm, "more than 0, up to 63 cm; below 25 counts as 25"));
  }
  if (!(verticalCm >= 0 && verticalCm <= 175)) problems.push(outside(`${name}.verticalCm`, verticalCm, "0 to 175 cm"));
  if (!(asymmetryDeg >= 0 && asymmetryDeg <= 135)) {
    problems.push(outside(`${name}.asymmetryDeg`, asymmetryDeg, "0 to 135 degrees"));
  }
  return problems;
}

function outside(field: string, value: number, allowed: string): Problem {
  return { code: "out-of-range", message: `${field} is ${value}; allowed is ${allowed}.`, field, value, allowed };
}
