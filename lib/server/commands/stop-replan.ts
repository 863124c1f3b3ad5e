import { stopReplanSchema } from "@/lib/contracts/replan";
import { ok, refuse } from "@/lib/domain/refusal";
import { command } from "@/lib/server/command";

/** Stops the planning of a season: it ends with the best plan so far, placed to the hour. Not begun yet, it is given up. */
export const stopReplan = command({
  name: "stop-replan",
  needs: "settle-clashes",
  input: stopReplanSchema,
  run: async (ctx, { replanId }) => {
    const stopped = await ctx.tx.$executeRaw`
      UPDATE replan SET stop_asked_at = clock_timestamp(), state = CASE state WHEN 'waiting' THEN 'lost' ELSE state END
       WHERE replan_id = ${replanId}::uuid AND state IN ('waiting','searching','placing')`;
    if (stopped === 0) return refuse({ code: "not-found", field: "replanId", message: "This planning is over already." });
    await ctx.audit({ subject: "replan", subjectId: replanId, after: { stopped: true } });
    return ok({ replanId });
  },
});
