import { Temporal } from "temporal-polyfill";
import { holdRunSchema } from "@/lib/contracts/runs";
import { command } from "@/lib/server/command";
import { castingToBook } from "@/lib/server/runs/casting-to-book";
import { mayHold } from "@/lib/server/runs/may-hold";
import { ALREADY_BOOKED, openFiring } from "@/lib/server/runs/open-firing";
import { whoHolds } from "@/lib/server/runs/who-holds";

/** Holds everything a casting's firing needs for 24 hours, as a booking would, or nothing. */
export const holdRun = command({
  name: "hold-run",
  needs: "book-runs",
  input: holdRunSchema,
  once: ({ requestKey }) => requestKey,
  run: async (ctx, { castingId, kilnId, kilnFrom, steamFrom }) => {
    const casting = await castingToBook(ctx, castingId);
    if (!casting.ok) return casting;
    const times = { kilnId, kilnFrom: Temporal.Instant.from(kilnFrom), steamFrom: steamFrom === undefined ? undefined : Temporal.Instant.from(steamFrom) };
    return openFiring(ctx, casting.value, times, { until: ({ run, kiln }) => mayHold(ctx, casting.value, run, kiln) });
  },
  onConstraint: async (constraint, who, { kilnId, kilnFrom }) => {
    if (constraint === "booking_no_overlap") return whoHolds(who, kilnId, kilnFrom);
    return constraint === "firing_casting_once" ? ALREADY_BOOKED : undefined;
  },
});
