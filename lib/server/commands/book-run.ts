import { Temporal } from "temporal-polyfill";
import { bookRunSchema } from "@/lib/contracts/runs";
import { directCommand } from "@/lib/server/command";
import { castingStatement, castingToBook } from "@/lib/server/runs/casting-to-book";
import { ALREADY_BOOKED, openFiring, openingStatements } from "@/lib/server/runs/open-firing";
import { whoHolds } from "@/lib/server/runs/who-holds";

/** Books everything a casting's firing needs, or nothing, and says who stands in the way. */
export const bookRun = directCommand({
  name: "book-run",
  needs: "book-runs",
  input: bookRunSchema,
  once: ({ requestKey }) => requestKey,
  ahead: (asked, { castingId }) => [castingStatement(castingId), ...openingStatements(asked, castingId)],
  run: async (ctx, { castingId, kilnId, kilnFrom, steamFrom }) => {
    const casting = await castingToBook(ctx, castingId);
    if (!casting.ok) return casting;
    return openFiring(ctx, casting.value, {
      kilnId,
      kilnFrom: Temporal.Instant.from(kilnFrom),
      steamFrom: steamFrom === undefined ? undefined : Temporal.Instant.from(steamFrom),
    });
  },
  onConstraint: async (constraint, who, { kilnId, kilnFrom }) => {
    if (constraint === "booking_no_overlap") return whoHolds(who, kilnId, kilnFrom);
    return constraint === "firing_casting_once" ? ALREADY_BOOKED : undefined;
  },
});
