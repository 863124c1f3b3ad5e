import { randomUUID } from "node:crypto";
import { Temporal } from "temporal-polyfill";
import type { AskedWays } from "@/lib/contracts/ways-out";
import type { Forbid, Wishes } from "@/lib/domain/settling/clash/clash-ground";
import type { SeasonSpan } from "@/lib/domain/settling/clash/season";
import type { Settlement } from "@/lib/domain/settling/clash/settlement";
import { showDate } from "@/lib/domain/time/show-time";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { query } from "@/lib/server/query";
import { loadClashGround, type LoadedGround } from "@/lib/server/rows/clash-ground";
import { settleClashInWorker } from "@/lib/server/settling/settle-clash-in-worker";
import type { CarriedOut } from "@/lib/server/ways-out/write-moves";
import { tryOut } from "@/lib/server/ways-out/try-out";
import { inOrder, refusedPlaces } from "@/lib/server/ways-out/wanted-moves";
import type { WaysProgress } from "@/lib/server/ways-out/ways-progress";
import type { Who } from "@/lib/server/who";

/** One way out, with its moves to the quarter hour, in the order in which they are made. */
export type WayOut = Omit<Settlement, "placements"> & { readonly times: readonly CarriedOut[]; readonly requestKey: string };
export type WaysOut = {
  readonly fingerprint: string;
  readonly today: string;
  /** Titles of all runs that may move, for what is asked of them. */
  readonly titles: ReadonlyMap<string, string>;
  readonly ways: readonly WayOut[];
  /** What was left out because the hours of a day did not allow it; a sentence each. */
  readonly notPlaced: readonly string[];
};

const QUICK_SECONDS = 2;
const THOROUGH_SECONDS = 10;
/** A place that the hours of its day do not allow is forbidden and all is computed again, so often at most. */
const MOST_ROUNDS = 4;

export const clashGround = query<SeasonSpan | undefined, LoadedGround>({ name: "clash-ground", needs: "settle-clashes", run: loadClashGround });

type AskingWays = {
  readonly asked: AskedWays;
  readonly iterations?: number | null;
  /** So often at most it begins again when the calendar changes meanwhile. */
  readonly attempts?: number;
  readonly progress?: WaysProgress | undefined;
};

/**
 * Up to three ways out of what clashes, computed in other threads and tried out on the calendar; nothing moves. Where
 * one cannot stand because the calendar has changed meanwhile, all is computed again from what is there now.
 */
export async function waysOut(who: Who, { asked, iterations = null, attempts = 3, progress }: AskingWays): Promise<Outcome<WaysOut>> {
  const { ground, fingerprint, today } = await clashGround(who, undefined);
  const wishes = wishesOf(asked, today);
  const { thorough } = asked;
  const sayDay = (day: number): string => showDate(today.add({ days: day }));
  const tried = new Map<string, Outcome<readonly CarriedOut[]>>();
  let forbids: readonly Forbid[] = wishes.forbids;
  for (let round = 1; ; round++) {
    progress?.settling();
    const settled = await settleClashInWorker({ ground, wishes: { ...wishes, forbids }, seconds: thorough ? THOROUGH_SECONDS : QUICK_SECONDS, iterations, sayDay, onProgress: progress?.reached });
    if (!settled.ok) return settled;
    progress?.placing();
    const ways: WayOut[] = [];
    const refused: { readonly message: string; readonly forbids: readonly Forbid[] }[] = [];
    for (const { placements, ...settlement } of settled.value) {
      const key = JSON.stringify(placements);
      const times = tried.get(key) ?? (await tryOut(who, inOrder(settlement.moves, today, who.timeZone)));
      tried.set(key, times);
      if (times.ok) ways.push({ ...settlement, times: times.value, requestKey: randomUUID() });
      else refused.push({ message: times.problems[0].message, forbids: refusedPlaces(ground, settlement.moves, times.problems) });
    }
    if (refused.length > 0 && attempts > 1 && (await clashGround(who, undefined)).fingerprint !== fingerprint) return waysOut(who, { asked, iterations, attempts: attempts - 1, progress });
    const again = refused.flatMap((one) => one.forbids);
    if (again.length === 0 || round === MOST_ROUNDS || held(wishes, again)) {
      const notPlaced = refused.map(({ message }) => message);
      const [first] = notPlaced;
      if (ways.length === 0 && first !== undefined) return refuse({ code: "no-hours", message: `No way out could be placed to the hour. ${first}` });
      return ok({ fingerprint, today: today.toString(), titles: new Map(ground.runs.map(({ runId, title }) => [runId, title])), ways, notPlaced });
    }
    forbids = [...forbids, ...again];
  }
}

function wishesOf({ keep, hold, not }: AskedWays, today: Temporal.PlainDate): Wishes {
  const dayOf = (day: string): number => today.until(Temporal.PlainDate.from(day), { largestUnit: "days" }).days;
  return {
    pins: [...keep.map((runId) => ({ runId })), ...hold.map(({ runId, kilnId, day }) => ({ runId, kilnId, day: dayOf(day) }))],
    forbids: not.map(({ runId, kilnId, day }) => ({ runId, kilnId, from: dayOf(day), to: dayOf(day) + 1 })),
  };
}

function held({ pins }: Wishes, forbids: readonly Forbid[]): boolean {
  return forbids.some(({ runId }) => pins.some((pin) => pin.runId === runId));
}
