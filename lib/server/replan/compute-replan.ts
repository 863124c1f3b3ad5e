import { can } from "@/lib/domain/access/roles";
import { logFault } from "@/lib/server/log";
import { planSeason } from "@/lib/server/replan/plan-season";
import { beat, endReplan, putBack, takeUp, type ReplanOrder } from "@/lib/server/replan/replan-row";
import { SeasonWatch } from "@/lib/server/replan/season-watch";

/**
 * Computes a re-plan that was asked for, in threads, telling every moment how far it is. Killed in between, it is begun
 * anew by whoever takes it up next; what it tells grows old meanwhile, and that is seen. Run it as often as you like.
 * @param signal ends it, when this process is to end, for another one to begin anew
 * @throws when it was ended by the signal
 */
export async function computeReplan(order: ReplanOrder, signal?: AbortSignal): Promise<void> {
  const taken = await takeUp(order);
  if (taken === undefined) return;
  if (!can(taken.who.roles, "settle-clashes")) return endReplan(taken, { failure: "Who asked for it is no manager any more." });
  const watch = new SeasonWatch((reached) => beat(taken, reached));
  const giveUp = (): void => watch.giveUp();
  signal?.addEventListener("abort", giveUp);
  watch.begin();
  try {
    const found = await planSeason({ ...taken, watch });
    if (signal?.aborted === true) await putBack(taken);
    else if (!watch.isGone) await endReplan(taken, found.ok ? { plan: found.value } : { failure: found.problems.map(({ message }) => message).join(" ") });
  } catch (error) {
    if (watch.isGone) await putBack(taken);
    else await endReplan(taken, { failure: `Something went wrong here and nothing was changed. Ask for it again; if it stays, tell whoever runs Lehrbook the number ${logFault("replan", error)}.` });
  } finally {
    watch.end();
    signal?.removeEventListener("abort", giveUp);
  }
  if (signal?.aborted === true) throw new Error("a re-plan was left to another process");
}
