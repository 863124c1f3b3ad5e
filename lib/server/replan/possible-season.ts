import type { Temporal } from "temporal-polyfill";
import { NO_WISHES } from "@/lib/domain/settling/clash/clash-ground";
import { clashProblem } from "@/lib/domain/settling/clash/clash-problem";
import { lengthFaults } from "@/lib/domain/settling/clash/length-faults";
import type { ClockedGround } from "@/lib/domain/settling/clash/season-slots";
import type { SeasonSpan } from "@/lib/domain/settling/clash/season";
import { DEFAULT_WEIGHTS } from "@/lib/domain/settling/clash/weights";
import { dayProblemFaults } from "@/lib/domain/settling/days/day-problem-faults";
import { showDate } from "@/lib/domain/time/show-time";
import { clashGround } from "@/lib/server/ways-out/ways-out";
import type { Who } from "@/lib/server/who";

/** What may be settled in a season as it is now, and in a sentence each the asks that are left out of it. */
export type PossibleSeason = ClockedGround & { readonly fingerprint: string; readonly today: Temporal.PlainDate; readonly aside: readonly string[] };

/** Reads it; an ask that by itself has no place in it is left out and said. */
export async function possibleSeason(who: Who, span: SeasonSpan): Promise<PossibleSeason> {
  const { ground, clock, aside, fingerprint, today } = await clashGround(who, span);
  const impossible = new Map(ground.runs.filter(({ firmness }) => firmness === "ask").flatMap((run) => {
    const alone = { ...ground, runs: [run] };
    const [fault] = [...lengthFaults(alone), ...dayProblemFaults(clashProblem(alone, NO_WISHES, DEFAULT_WEIGHTS), (day) => showDate(today.add({ days: day })))];
    return fault === undefined ? [] : [[run.runId, fault.message]];
  }));
  return leaving({ fingerprint, today, ground, clock, aside }, impossible);
}

/** The same without some asks; by id, why each is left out. */
export function leaving(season: PossibleSeason, why: ReadonlyMap<string, string>): PossibleSeason {
  if (why.size === 0) return season;
  const { ground, aside } = season;
  return { ...season, ground: { ...ground, runs: ground.runs.filter(({ runId }) => !why.has(runId)) }, aside: [...aside, ...why.values()] };
}
