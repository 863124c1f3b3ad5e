import type { ClashGround, Forbid, MovableRun, Pin, Wishes } from "@/lib/domain/settling/clash/clash-ground";
import { NEAR_DAYS, type SettlingWeights } from "@/lib/domain/settling/clash/weights";
import type { DayJob, DayProblem, StandingPlace, TakenDays, UnwantedLoad } from "@/lib/domain/settling/days/day-problem";

/** A clash as a problem in days, with the given weights. Every kiln is a class of its own: people know theirs by name. */
export function clashProblem(ground: ClashGround, wishes: Wishes, weights: SettlingWeights): DayProblem {
  const { kilns } = ground;
  const index = new Map(kilns.map(({ kilnId }, i) => [kilnId, i]));
  return {
    kilns: kilns.map(({ name }) => name),
    classOf: kilns.map((_, i) => i),
    powerKw: kilns.map(({ powerKw }) => powerKw),
    horizon: ground.handsOn.length,
    handsOn: ground.handsOn,
    opsOn: ground.liftsOn,
    steamsOn: ground.steamersOn,
    steamWindow: ground.steamWindow,
    taken: mergedStretches(kilns.length, ground.taken.map(({ kilnId, from, to }) => ({ kiln: index.get(kilnId) ?? -1, from, to }))),
    powerLeftKw: ground.powerLeftKw,
    jobs: ground.runs.map((run) => jobOf(run, ground, wishes, weights, index)),
  };
}

function jobOf(run: MovableRun, ground: ClashGround, { pins, forbids }: Wishes, weights: SettlingWeights, index: ReadonlyMap<string, number>): DayJob {
  const held = pins.filter((pin) => pin.runId === run.runId).map((pin) => asPlace(pin, run));
  const day = held.find((pin) => pin.day !== undefined)?.day;
  const onlyOn = held.find((pin) => pin.kilnId !== undefined)?.kilnId;
  const times = run.firmness === "promised" ? weights.promisedTimes : 1;
  return {
    name: run.title,
    daysByClass: ground.kilns.map(({ kilnId }) => (onlyOn === undefined || onlyOn === kilnId ? (run.daysByKiln[kilnId] ?? 0) : 0)),
    earliest: day ?? run.earliest,
    latest: day ?? run.latest,
    due: run.neededBy ?? ground.handsOn.length,
    weight: run.neededBy === null ? 0 : weights.perDayLate * run.importance,
    steams: run.steams,
    standing: standingOf(run, weights, times, index),
    hands: run.hands,
    heatingDays: run.heatingDays,
    unwanted: forbids.filter((forbid) => forbid.runId === run.runId).map((forbid) => unwantedOf(forbid, index)),
    ...(run.standing === null ? {} : { quiet: { before: NEAR_DAYS, price: weights.perNearChange * times } }),
  };
}

function standingOf({ standing }: MovableRun, weights: SettlingWeights, times: number, index: ReadonlyMap<string, number>): StandingPlace | null {
  if (standing === null) return null;
  return {
    kiln: index.get(standing.kilnId) ?? -1,
    start: standing.day,
    moved: weights.perMove * times,
    fix: 0,
    slope: weights.perDayMoved * times,
    otherClass: weights.perOtherKiln * times,
  };
}

/** A pin that names neither kiln nor day holds a run where it stands. */
export function asPlace(pin: Pin, { standing }: MovableRun): Pin {
  if (pin.kilnId !== undefined || pin.day !== undefined || standing === null) return pin;
  return { runId: pin.runId, kilnId: standing.kilnId, day: standing.day };
}

function unwantedOf({ kilnId, from = 0, to = Infinity }: Forbid, index: ReadonlyMap<string, number>): UnwantedLoad {
  return { cls: kilnId === undefined ? null : (index.get(kilnId) ?? -1), from, to };
}

/** An outage may lie over a started firing; together they are one stretch. What has no length is none. */
export function mergedStretches(kilns: number, taken: readonly TakenDays[]): TakenDays[] {
  return Array.from({ length: kilns }, (_, kiln) => kiln).flatMap((kiln) => {
    const own = taken.filter((stretch) => stretch.kiln === kiln && stretch.from < stretch.to).sort((a, b) => a.from - b.from);
    const merged: { kiln: number; from: number; to: number }[] = [];
    for (const { from, to } of own) {
      const last = merged.at(-1);
      if (last !== undefined && from <= last.to) last.to = Math.max(last.to, to);
      else merged.push({ kiln, from, to });
    }
    return merged;
  });
}
