import { NO_WISHES, type ClashGround, type MovableRun } from "@/lib/domain/settling/clash/clash-ground";
import { clashProblem } from "@/lib/domain/settling/clash/clash-problem";
import type { SayDay } from "@/lib/domain/settling/days/day-problem-faults";
import { settlementOf, type Place, type Settlement } from "@/lib/domain/settling/clash/settlement";
import { unloadDay } from "@/lib/domain/settling/clash/standing-room";
import { weightsFor, type Aim, type SettlingWeights } from "@/lib/domain/settling/clash/weights";
import { againstFacts } from "@/lib/domain/settling/clash/wish-problems";
import { dayCost, type DayPlacement } from "@/lib/domain/settling/days/day-problem";
import { verifyDays } from "@/lib/domain/settling/verify";
import { ok, refusalOf, type Outcome } from "@/lib/domain/refusal";

export type HandPlan = {
  /** Where runs go; one that is not named stays where it stands, and an ask that is not named stays waiting. */
  readonly places: ReadonlyMap<string, Place>;
  /** The runs among them that were put there by hand: they are named first when it cannot stand. */
  readonly byHand: readonly string[];
};

/**
 * A plan as somebody has put it together, without searching: what it costs and means, or in a sentence each why it
 * cannot stand. Steamer days are found, as late before loading as they can be.
 */
export function planAsPut(ground: ClashGround, { places, byHand }: HandPlan, aim: Aim, weights: SettlingWeights, sayDay: SayDay): Outcome<Settlement> {
  const own: ClashGround = { ...ground, runs: ground.runs.filter((run) => run.standing !== null || places.has(run.runId)) };
  const placeOf = (run: MovableRun): Place => places.get(run.runId) ?? (run.standing as Place);
  const moved = own.runs.filter((run) => byHand.includes(run.runId));
  const facts = moved.flatMap((run) => againstFacts(own, run, { runId: run.runId, ...placeOf(run) }, sayDay));
  const refused = refusalOf([...facts, ...moved.flatMap((run) => [...beyond(own, run, placeOf(run), sayDay), ...inTheWay(own, run, placeOf, sayDay)])].map(asProblem));
  if (refused !== undefined) return refused;
  const problem = clashProblem(own, NO_WISHES, weightsFor(aim, weights));
  const placements = placementsOf(own, placeOf);
  const unsteamed = placements.filter(({ job, steam }) => own.runs[job]?.steams === true && steam < 0).map(({ job, start }) => asProblem(`No steamer is free for ${own.runs[job]?.title} in the days before ${sayDay(start)}.`));
  const faults = unsteamed.length > 0 ? unsteamed : verifyDays(problem, placements).map((fault) => asProblem(fault.replaceAll(/\bday (\d+)/g, (_, day: string) => sayDay(Number(day)))));
  return refusalOf(faults) ?? ok(settlementOf(own, aim, placements, dayCost(problem, placements), 0));
}

/** With the day on which it is really unloaded there, where that is known. */
export type PlaceUntil = Place & { readonly until?: number };

/** What a plan costs and means that the calendar itself has accepted, hour by hour: whether its days alone would do is not asked. */
export function countAsPlaced(ground: ClashGround, places: ReadonlyMap<string, PlaceUntil>, aim: Aim, weights: SettlingWeights): Settlement {
  const own: ClashGround = { ...ground, runs: ground.runs.filter((run) => run.standing !== null || places.has(run.runId)) };
  const placements = placementsOf(own, (run) => places.get(run.runId) ?? (run.standing as Place));
  return settlementOf(own, aim, placements, dayCost(clashProblem(own, NO_WISHES, weightsFor(aim, weights)), placements), 0);
}

function placementsOf(ground: ClashGround, placeOf: (run: MovableRun) => PlaceUntil): DayPlacement[] {
  const placements = ground.runs.map((run, job): DayPlacement => {
    const place = placeOf(run);
    return { job, kiln: ground.kilns.findIndex(({ kilnId }) => kilnId === place.kilnId), start: place.day, end: place.until ?? unloadDay(ground, run, place), steam: -1 };
  });
  return withSteamers(ground, placements);
}

function asProblem(message: string) {
  return { code: "by-hand", message };
}

function beyond(ground: ClashGround, run: MovableRun, place: Place, sayDay: SayDay): string[] {
  const last = ground.handsOn.length - 1;
  return unloadDay(ground, run, place) > last ? [`${run.title} would not be unloaded by ${sayDay(last)}, where the calendar ends.`] : [];
}

/** Another run that has the kiln then. */
function inTheWay(ground: ClashGround, run: MovableRun, placeOf: (run: MovableRun) => Place, sayDay: SayDay): string[] {
  const own = placeOf(run);
  const end = unloadDay(ground, run, own);
  return ground.runs.flatMap((other) => {
    const place = placeOf(other);
    const until = unloadDay(ground, other, place);
    if (other.runId === run.runId || place.kilnId !== own.kilnId || place.day >= end || until <= own.day) return [];
    const kiln = ground.kilns.find(({ kilnId }) => kilnId === own.kilnId)?.name ?? own.kilnId;
    return [`${run.title} would have ${kiln} from ${sayDay(own.day)} until ${sayDay(end)}; ${other.title} has it from ${sayDay(place.day)} until ${sayDay(until)}.`];
  });
}

/** Gives each load that is steamed a steamer, the latest loads first, each as late as it can be; the check says who has none. */
function withSteamers({ runs, steamersOn, handsOn, steamWindow }: ClashGround, placements: readonly DayPlacement[]): DayPlacement[] {
  const left = [...steamersOn];
  const steam = new Map<number, number>();
  for (const { job, start } of placements.filter(({ job }) => runs[job]?.steams === true).toSorted((a, b) => b.start - a.start)) {
    let day = start - 1;
    while (day >= start - steamWindow && !((left[day] ?? 0) > 0 && (handsOn[day] ?? 0) > 0)) day--;
    if (day < start - steamWindow) continue;
    left[day]!--;
    steam.set(job, day);
  }
  return placements.map((one) => ({ ...one, steam: steam.get(one.job) ?? -1 }));
}
