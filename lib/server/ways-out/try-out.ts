import { paths } from "@/lib/contracts/paths";
import { ok, type Outcome } from "@/lib/domain/refusal";
import { now } from "@/lib/server/clock";
import { inWorkshop } from "@/lib/server/db";
import { carryOut, timeFor, type CarriedOut, type WantedMove } from "@/lib/server/ways-out/carry-out";
import type { Who } from "@/lib/server/who";

/** Ends the transaction, so that nothing of the trial stays. */
class Tried extends Error {
  constructor(readonly outcome: Outcome<readonly CarriedOut[]>) {
    super("tried");
  }
}

const TRIAL = { reason: "Tried out, and taken back.", href: paths.clashes, findAll: true };

/** What carrying out these moves would give, to the quarter hour; nothing is changed. */
export async function tryOut(who: Who, moves: readonly WantedMove[]): Promise<Outcome<readonly CarriedOut[]>> {
  try {
    return await inWorkshop(who.workshopId, async (tx) => {
      const tried = await carryOut({ who, tx, now: now(), audit: () => Promise.resolve() }, moves, TRIAL);
      throw new Tried(tried.ok ? ok(tried.value.map(({ runId, kilnId, kilnFrom, kilnTo }) => ({ runId, kilnId, kilnFrom, kilnTo }))) : tried);
    }, timeFor(moves.length));
  } catch (error) {
    if (error instanceof Tried) return error.outcome;
    throw error;
  }
}
