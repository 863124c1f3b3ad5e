import { createHash } from "node:crypto";
import { Temporal } from "temporal-polyfill";
import { findClashes, type Clash, type ClashState, type StandingRun } from "@/lib/domain/booking/clash";
import type { Kiln } from "@/lib/domain/booking/equipment";
import { MAX_DAYS_FROM_STEAM_TO_LOAD } from "@/lib/domain/booking/run-plan";
import type { ClashGround, MovableRun, TakenKiln } from "@/lib/domain/settling/clash/clash-ground";
import type { RunClock, SeasonClock } from "@/lib/domain/settling/clash/season-clock";
import { season, type Season, type SeasonSpan } from "@/lib/domain/settling/clash/season";
import { withStandingRoom } from "@/lib/domain/settling/clash/standing-room";
import type { Reading } from "@/lib/server/query";
import { loadClashState } from "@/lib/server/rows/clash-state";
import { hoursInKilns, kilnTakers } from "@/lib/server/rows/days-in-kilns";
import { isShared } from "@/lib/server/rows/in-firing";
import { readFirings } from "@/lib/server/rows/lock-firing";
import { askedRuns, heldDays, kilnStart, movableRun, type AskedRuns } from "@/lib/server/rows/movable-runs";
import { clockOf, heldUntil, seasonClock } from "@/lib/server/rows/season-clock";

/** What may be settled, and a print of all it was made from: equal prints mean that nothing has changed. */
export type LoadedGround = { readonly ground: ClashGround; readonly clock: SeasonClock; readonly fingerprint: string; readonly today: Temporal.PlainDate; readonly clashes: readonly Clash[]; readonly aside: AskedRuns["aside"]; readonly state: ClashState };

/**
 * The coming season of the workshop: what stands and may move, what waits, and what cannot be had. With a span, all
 * that stands and all asks within it; what reaches out of it on either side stays.
 */
export async function loadClashGround({ tx, who, now }: Reading, within?: SeasonSpan): Promise<LoadedGround> {
  const state = await loadClashState(tx, who, now);
  const days = season(state.hours, now.toZonedDateTimeISO(who.timeZone).toPlainDate(), within);
  const firings = await readFirings(tx, state.runs.map(({ firingId }) => firingId));
  const takers = await kilnTakers(tx, state.equipment);
  const runs: MovableRun[] = [];
  const taken: TakenKiln[] = [...outages(state, days)];
  const clocks = new Map<string, RunClock>();
  const staying: StandingRun[] = [];
  for (const standing of state.runs) {
    const firing = firings.find(({ firingId }) => firingId === standing.firingId);
    const held = heldDays(standing, days);
    const moves = firing?.status === "planned" && held.from >= days.opens && held.from + 1 < days.length && held.unload < days.length && Temporal.Instant.compare(kilnStart(standing), now) > 0;
    if (!moves || firing === undefined) {
      taken.push(...takenBy(standing, days));
      staying.push(standing);
      continue;
    }
    // A shared firing moves as one, on its own kiln.
    const elsewhere = isShared(firing) ? {} : await hoursInKilns(takers, firing.plan.casting);
    runs.push(movableRun(standing, firing, elsewhere, days, now));
    clocks.set(firing.firingId, clockOf(standing, firing, elsewhere));
  }
  const asked = await askedRuns({ tx, takers, days, all: within !== undefined });
  runs.push(...asked.runs);
  for (const [askId, clock] of asked.clocks) clocks.set(askId, clock);
  const clashes = findClashes(state);
  const print = { runs, taken, today: days.today.toString(), firings: firings.map(({ firingId, version }) => [firingId, version]), clashes: clashes.map(({ key }) => key), power: state.powerLimitKw };
  return { ground: groundOf(state, days, runs, taken, clashes), clock: seasonClock(state, days, clocks, staying), fingerprint: createHash("sha256").update(JSON.stringify(print)).digest("hex"), today: days.today, clashes, aside: asked.aside, state };
}

function groundOf(state: ClashState, days: Season, runs: readonly MovableRun[], taken: readonly TakenKiln[], clashes: readonly Clash[]): ClashGround {
  const count = (kind: string): number => state.equipment.filter((piece) => piece.kind === kind).length;
  const unloads = taken.map(({ to }) => to);
  const outOn = (day: number): number => state.outages.filter((one) => isSteamer(state, one.equipmentId) && days.dayOf(one.from) <= day && (one.to === null || day <= days.dayOf(one.to))).length;
  const clashDays = (kind: Clash["kind"]): Set<number> => new Set(clashes.filter((clash) => clash.kind === kind).flatMap((clash) => span(days.dayOf(clash.start), days.dayOf(clash.end))));
  const lifts = days.staffedHoursOn.map((hours, day) => Math.max(0, Math.floor(hours) * Math.max(1, count("trolley")) - unloads.filter((one) => one === day).length));
  return withStandingRoom({
    kilns: state.equipment.filter((piece): piece is Kiln => piece.kind === "kiln").map(({ equipmentId, name, limits }) => ({ kilnId: equipmentId, name, powerKw: limits.powerKw })),
    runs,
    taken,
    handsOn: days.handsOn,
    liftsOn: lifts,
    steamersOn: days.handsOn.map((hands, day) => (hands > 0 ? Math.max(0, count("steamer") - outOn(day)) : 0)),
    steamWindow: MAX_DAYS_FROM_STEAM_TO_LOAD,
    powerLeftKw: powerLeft(state, days, new Set(runs.map(({ runId }) => runId))),
  }, { lifts: clashDays("thin-crew"), power: clashDays("overload") });
}

function isSteamer({ equipment }: ClashState, equipmentId: string): boolean {
  return equipment.some((piece) => piece.equipmentId === equipmentId && piece.kind === "steamer");
}

function span(from: number, to: number): number[] {
  return Array.from({ length: Math.max(0, to - from + 1) }, (_, i) => from + i);
}

/** A firing that has started, is only held, or reaches out of the season: its kiln is taken. */
function takenBy(run: StandingRun, days: Season): TakenKiln[] {
  const [from, to] = [Math.max(0, days.dayOf(kilnStart(run))), Math.min(days.length, days.dayOf(heldUntil(run)))];
  return from < to ? [{ kilnId: run.kilnId, from, to, holder: run.title }] : [];
}

function outages({ outages: all, equipment }: ClashState, days: Season): TakenKiln[] {
  const kilns = new Set(equipment.filter(({ kind }) => kind === "kiln").map(({ equipmentId }) => equipmentId));
  return all.filter(({ equipmentId }) => kilns.has(equipmentId)).flatMap(({ equipmentId, from, to, reason }) => {
    const stretch = { from: Math.max(0, days.dayOf(from)), to: to === null ? days.length : Math.min(days.length, days.dayOf(to)) };
    return stretch.from < stretch.to ? [{ kilnId: equipmentId, ...stretch, holder: reason }] : [];
  });
}

/** What the limit leaves beside kilns that heat and do not move. */
function powerLeft({ powerLimitKw, runs, equipment }: ClashState, days: Season, moves: ReadonlySet<string>): number[] | null {
  if (powerLimitKw === null) return null;
  const left = new Array<number>(days.length).fill(powerLimitKw);
  for (const run of runs) {
    const kiln = equipment.find((piece): piece is Kiln => piece.kind === "kiln" && piece.equipmentId === run.kilnId);
    if (moves.has(run.firingId) || kiln === undefined) continue;
    const start = kilnStart(run);
    for (const day of span(days.dayOf(start), days.dayOf(start.add({ minutes: Math.round(run.heatingHours * 60) })))) if (day >= 0 && day < days.length) left[day] = (left[day] ?? 0) - kiln.limits.powerKw;
  }
  return left.map((kw) => Math.max(0, kw));
}
