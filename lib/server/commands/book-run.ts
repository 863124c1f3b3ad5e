import { Temporal } from "temporal-polyfill";
import { bookRunSchema } from "@/lib/contracts/runs";
import { can } from "@/lib/domain/access/roles";
import { refuse } from "@/lib/domain/refusal";
import { command, NOT_ALLOWED } from "@/lib/server/command";
import { ALREADY_BOOKED, openFiring } from "@/lib/server/runs/open-firing";
import { whoHolds } from "@/lib/server/runs/who-holds";

/** Books everything a casting's firing needs, or nothing, and says who stands in the way. */
export const bookRun = command({
  name: "book-run",
  needs: "book-runs",
  input: bookRunSchema,
  once: ({ requestKey }) => requestKey,
  run: async (ctx, { castingId, kilnId, kilnFrom, steamFrom }) => {
    // Held until the run is written, so that the casting cannot be withdrawn between the look and the booking.
    await ctx.tx.$executeRaw`SELECT 1 FROM casting WHERE casting_id = ${castingId}::uuid FOR SHARE`;
    const casting = await ctx.tx.casting.findFirst({ where: { castingId } });
    if (casting === null) return refuse({ code: "not-found", field: "castingId", message: "There is no such casting in this workshop." });
    if (casting.memberId !== ctx.who.memberId && !can(ctx.who.roles, "manage-runs")) return refuse(NOT_ALLOWED);
    if (casting.withdrawnAt !== null) {
      return refuse({ code: "withdrawn", field: "castingId", message: `${casting.title} was withdrawn; a withdrawn casting cannot be booked.` });
    }
    return openFiring(ctx, casting, {
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
