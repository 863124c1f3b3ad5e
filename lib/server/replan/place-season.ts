import type { Temporal } from "temporal-polyfill";
import { countAsPlaced, type PlaceUntil } from "@/lib/domain/settling/clash/put-by-hand";
import { SLACK_DAYS, type ClockedGround } from "@/lib/domain/settling/clash/season-slots";
import type { Settlement } from "@/lib/domain/settling/clash/settlement";
import { DEFAULT_WEIGHTS } from "@/lib/domain/settling/clash/weights";
import { ok, type Outcome } from "@/lib/domain/refusal";
import { MS_PER_HOUR } from "@/lib/domain/time/interval";
import { localDay } from "@/lib/domain/time/zone-days";
import type { CarriedOut } from "@/lib/server/ways-out/write-moves";
import { tryOut } from "@/lib/server/ways-out/try-out";
import { inOrder } from "@/lib/server/ways-out/wanted-moves";
import type { Who } from "@/lib/server/who";

export type PlacedSeason = { readonly settlement: Settlement; readonly times: readonly CarriedOut[] };

/**
 * Tries a season's plan out to the quarter hour. What the hours push to a later day stays pushed, and the plan is counted
 * with the days on which everything is really loaded and unloaded: that the calendar takes it, and clashes nowhere anew,
 * says more than its days. Its bound is not known from that.
 */
export async function placeSeason(who: Who, { ground, clock }: ClockedGround, settled: Settlement, today: Temporal.PlainDate): Promise<Outcome<PlacedSeason>> {
  const tried = await tryOut(who, inOrder(settled.moves, today, who.timeZone, SLACK_DAYS));
  if (!tried.ok) return tried;
  const times = tried.value;
  const dayOf = (epochMs: number): number => localDay(epochMs, who.timeZone) - clock.firstDay;
  const places = new Map<string, PlaceUntil>();
  for (const { runId, standing } of ground.runs) {
    const stood = clock.runs.get(runId)?.standing ?? null;
    if (standing !== null && stood !== null) places.set(runId, { ...standing, until: dayOf(stood.unloading) });
  }
  for (const { runId, kilnId, kilnFrom, kilnTo } of times) {
    // The last instant of unloading, after which the kiln is made ready.
    const unloaded = Date.parse(kilnTo) - (clock.turnaroundHours.get(kilnId) ?? 0) * MS_PER_HOUR - 1;
    places.set(runId, { kilnId, day: dayOf(Date.parse(kilnFrom)), until: dayOf(unloaded) });
  }
  return ok({ settlement: countAsPlaced(ground, places, settled.aim, DEFAULT_WEIGHTS), times });
}
