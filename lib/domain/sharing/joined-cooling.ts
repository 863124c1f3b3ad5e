import type { KilnForPlan } from "@/lib/domain/firing/casting-input";
import { arrivalHours, coolingStages, type Programmed } from "@/lib/domain/firing/cooling";
import { coolingFor, roundOf } from "@/lib/domain/firing/cooling-for";
import { inDigits } from "@/lib/domain/firing/figures";
import type { LoadedKiln } from "@/lib/domain/heat/kiln-heat";
import { ok, type Outcome } from "@/lib/domain/refusal";
import type { CoolingRamp } from "@/lib/domain/stress/cooling-task";
import { governs } from "./governs";
import { joinSoak, type Cooled, type JoinedSoak } from "./joined-soak";
import type { PreparedSharer } from "./sharer";
import { governorAt, ownRateAt, slowestRamps } from "./slowest-rates";

/** How much slower than the slowest casting alone the parts of the way down go; 1 to begin with. */
export type Slowed = { readonly drop: number; readonly slow: number; readonly last: number };
export const NOT_SLOWED: Slowed = { drop: 1, slow: 1, last: 1 };

export type GovernedLine = { readonly stage: Programmed; readonly governor: string };

/** The ways down of all castings of one load as one, which `slowed` can make slower still. */
export type JoinedCooling = { readonly lines: (slowed: Slowed) => readonly GovernedLine[] };

export function cooled(sharer: PreparedSharer, processC: number): Cooled {
  const { glass, body, input, load, lagHours } = sharer;
  const round = input.piece.thickestMm === undefined ? roundOf(load.solid, input.cooling) : undefined;
  return { ...sharer, own: coolingFor(glass, body, round, input.stress, processC, lagHours) };
}

type Kiln = { readonly loaded: LoadedKiln | undefined; readonly kiln: KilnForPlan | undefined };

/** Drop, Soak, Slow cool, Run-down and Open for all: the longest soak, and at every temperature the slowest rate. */
export function joinCooling(sharers: readonly PreparedSharer[], processC: number, kiln: Kiln): Outcome<JoinedCooling> {
  const all = sharers.map((sharer) => cooled(sharer, processC));
  const soak = joinSoak(all);
  if (!soak.ok) return soak;
  return ok({ lines: (slowed) => linesOf(all, soak.value, processC, kiln, slowed) });
}

function linesOf(all: readonly Cooled[], soak: JoinedSoak, processC: number, { loaded, kiln }: Kiln, slowed: Slowed): readonly GovernedLine[] {
  const thickest = all.reduce((most, one) => (one.body.slabEquivalentM > most.body.slabEquivalentM ? one : most));
  const lagHours = Math.max(...all.map((one) => one.lagHours));
  const { slow, last } = slowestRamps(all, soak.soakC);
  const scaled = (ramp: CoolingRamp, by: number): CoolingRamp => ({ toC: ramp.toC, rateKPerH: ramp.rateKPerH / by });
  const drops = all.map(({ own }) => own.drop);
  const stages = coolingStages({
    processC, body: thickest.body, limits: thickest.limits, level: thickest.input.stress, lagHours, loaded, kiln,
    shortest: {
      ...thickest.own,
      drop: { fromC: Math.max(...drops.map(({ fromC }) => fromC)), rateKPerH: Math.min(...drops.map(({ rateKPerH }) => rateKPerH)) / slowed.drop },
      soakC: soak.soakC,
      soakHours: Math.max(...soak.hours),
      slow: slow.map((ramp) => scaled(ramp, slowed.slow)),
      last: scaled(last, slowed.last),
    },
  });
  let fromC = processC;
  return stages.map((stage) => {
    const line = governed(all, soak, stage, { fromC, lagHours, processC, slowed });
    fromC = stage.toC;
    return line;
  });
}

type Where = { readonly fromC: number; readonly lagHours: number; readonly processC: number; readonly slowed: Slowed };

function governed(all: readonly Cooled[], soak: JoinedSoak, stage: Programmed, where: Where): GovernedLine {
  switch (stage.stage) {
    case "Soak":
      return soakLine(all, soak, stage, where.processC);
    case "Slow cool":
    case "Run-down":
      return rampLine(all, stage, where);
    case "Open": {
      const last = all.reduce((most, one) => (one.lagHours + one.body.slabEquivalentM > most.lagHours + most.body.slabEquivalentM ? one : most));
      return { governor: last.castingId, stage: { ...stage, why: governs(all, last, false, `its core is the last to come down, so ${inDigits(stage.hours)} h more behind the closed door, then unload below 60 °C`) } };
    }
    default: {
      const first = all.reduce((least, one) => (one.own.drop.rateKPerH < least.own.drop.rateKPerH ? one : least));
      const alike = all.every(({ own }) => own.drop.rateKPerH === first.own.drop.rateKPerH);
      return { governor: first.castingId, stage: { ...stage, why: governs(all, first, alike, stage.why) } };
    }
  }
}

function soakLine(all: readonly Cooled[], { soakC, hours }: JoinedSoak, stage: Programmed, processC: number): GovernedLine {
  const whole = all.map((one, i) => (hours[i] ?? 0) + arrivalHours(one.lagHours, processC - soakC));
  const longest = Math.max(...whole);
  const first = all[whole.indexOf(longest)];
  const alike = whole.every((one) => one === longest);
  const others = all.flatMap((one, i) => (one === first || alike ? [] : [`${one.title} ${inDigits(whole[i] ?? 0)} h`]));
  const why = `held ${inDigits(stage.hours)} h at ${soakC} °C until it is level and free of stress${others.length > 0 ? `, where ${others.join(" and ")} would do` : ""}`;
  return { governor: first?.castingId ?? "", stage: { ...stage, why: governs(all, first, alike, why) } };
}

function rampLine(all: readonly Cooled[], stage: Programmed, { fromC, lagHours, slowed }: Where): GovernedLine {
  const rate = Math.abs(stage.rateKPerH);
  const part = stage.stage === "Slow cool" ? slowed.slow : slowed.last;
  // The glass stands above the kiln by what it follows late.
  const celsius = (fromC + stage.toC) / 2 + lagHours * rate;
  const governor = governorAt(all, celsius);
  const own = ownRateAt(governor, celsius);
  if (rate < 0.999 * (own / part)) return { governor: governor.castingId, stage };
  const limit = stage.stage === "Slow cool" ? `${inDigits(governor.limits.permanentMPa)} MPa of permanent` : `${inDigits(governor.limits.passingMPa)} MPa of passing`;
  const alike = all.every((one) => Math.abs(ownRateAt(one, celsius) - own) < 1e-9);
  const others = all.flatMap((one) => (one === governor || alike ? [] : [`${one.title} alone could go ${inDigits(ownRateAt(one, celsius))} K/h`]));
  const beside = others.length > 0 ? `; ${others.join(", ")}` : "";
  const checked = part > 1.0005 ? `, taken back from ${inDigits(own)} K/h as followed behind every mould` : "";
  const steps = stage.segments > 1 ? `; the controller does it in ${stage.segments / 2} steps` : "";
  const why = `${inDigits(rate)} K/h keeps it within ${limit} tension${checked}${beside}${steps}`;
  return { governor: governor.castingId, stage: { ...stage, why: governs(all, governor, alike, why) } };
}

