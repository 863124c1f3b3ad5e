import { findClashes } from "@/lib/domain/booking/clash";
import { ok, type Outcome } from "@/lib/domain/refusal";
import { now } from "@/lib/server/clock";
import { inWorkshop } from "@/lib/server/db";
import { loadClashState } from "@/lib/server/rows/clash-state";
import { placeMoves, timeFor, type WantedMove } from "@/lib/server/ways-out/place-moves";
import { timesOf, type CarriedOut } from "@/lib/server/ways-out/write-moves";
import type { Who } from "@/lib/server/who";

/** What carrying out these moves would give, to the quarter hour, or every move that cannot be made; nothing is written, and nobody waits for it. */
export async function tryOut(who: Who, moves: readonly WantedMove[]): Promise<Outcome<readonly CarriedOut[]>> {
  return inWorkshop(who.workshopId, async (tx) => {
    const at = now();
    const state = await loadClashState(tx, who, at);
    const placed = await placeMoves({ who, tx, now: at }, moves, { state, clashes: findClashes(state), reason: "Only tried out.", findAll: true });
    return placed.ok ? ok(placed.value.map(({ move, placed: found }) => timesOf(move.runId, found))) : placed;
  }, timeFor(moves.length));
}
