import type { Temporal } from "temporal-polyfill";
import type { ClashGround, Forbid } from "@/lib/domain/settling/clash/clash-ground";
import type { Move } from "@/lib/domain/settling/clash/settlement";
import type { Problem } from "@/lib/domain/refusal";
import { wallInstant } from "@/lib/domain/time/staffed-hours";
import type { WantedMove } from "@/lib/server/ways-out/place-moves";

/**
 * In the order of their days, those of a day as they are given, so that an earlier run is there when a later one looks for hands.
 * @param slack days after its own on which each may be loaded as well
 */
export function inOrder(moves: readonly Move[], today: Temporal.PlainDate, timeZone: string, slack = 0): WantedMove[] {
  return moves
    .toSorted((a, b) => a.to.day - b.to.day)
    .map(({ runId, from, to }) => {
      const date = today.add({ days: to.day });
      return { runId, isAsk: from === null, kilnId: to.kilnId, from: wallInstant(date, 0, timeZone), until: wallInstant(date.add({ days: 1 + slack }), 0, timeZone) };
    });
}

/** The places that a trial refused, each to be forbidden; where it does not say which, the first move's. */
export function refusedPlaces({ runs }: ClashGround, moves: readonly Move[], problems: readonly Problem[]): Forbid[] {
  return problems.flatMap(({ data }) => {
    const move = moves.find(({ runId }) => runId === data?.["runId"]) ?? moves.find(({ runId }) => runs.some((run) => run.runId === runId));
    return move === undefined ? [] : [{ runId: move.runId, kilnId: move.to.kilnId, from: move.to.day, to: move.to.day + 1 }];
  });
}
