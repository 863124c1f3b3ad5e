import { Temporal } from "temporal-polyfill";
import type { ClashGround } from "@/lib/domain/settling/clash/clash-ground";
import { countAsPlaced } from "@/lib/domain/settling/clash/put-by-hand";
import type { Settlement } from "@/lib/domain/settling/clash/settlement";
import { DEFAULT_WEIGHTS } from "@/lib/domain/settling/clash/weights";
import { ok, type Outcome } from "@/lib/domain/refusal";
import type { CarriedOut } from "@/lib/server/ways-out/write-moves";
import { tryOut } from "@/lib/server/ways-out/try-out";
import { inOrder } from "@/lib/server/ways-out/wanted-moves";
import type { Who } from "@/lib/server/who";

/** Runs close behind each other lose some hours every time, and a day after a few; so many days each may be loaded later. */
const SLACK = 6;

export type PlacedSeason = { readonly settlement: Settlement; readonly times: readonly CarriedOut[] };

/**
 * Tries a season's plan out to the quarter hour. What the hours push to a later day stays pushed, and the plan is counted
 * with the days it really has: that the calendar takes it, and clashes nowhere anew, says more than its days. Its bound
 * is not known from that.
 */
export async function placeSeason(who: Who, ground: ClashGround, settled: Settlement, today: Temporal.PlainDate): Promise<Outcome<PlacedSeason>> {
  const tried = await tryOut(who, inOrder(settled.moves, today, who.timeZone, SLACK));
  if (!tried.ok) return tried;
  const times = tried.value;
  const dayOf = (text: string): number => today.until(Temporal.Instant.from(text).toZonedDateTimeISO(who.timeZone).toPlainDate(), { largestUnit: "days" }).days;
  const places = new Map(times.map(({ runId, kilnId, kilnFrom }) => [runId, { kilnId, day: dayOf(kilnFrom) }]));
  return ok({ settlement: countAsPlaced(ground, places, settled.aim, DEFAULT_WEIGHTS), times });
}
