import { query } from "@/lib/server/query";
import { PLAN_TITLE, titleOf } from "@/lib/server/rows/firing-title";

export type RunState = { readonly title: string; /** Why it does not move, in words; undefined where it simply stands. */ readonly state: string | undefined };

const FIRING_WORDS: Readonly<Record<string, string>> = {
  started: "it has started, so it stays",
  opened: "it is over",
  cancelled: "its run was cancelled",
  released: "its run was released",
  lapsed: "its time was only held, and has lapsed",
};
const ASK_WORDS: Readonly<Record<string, string>> = { met: "it is booked already", withdrawn: "the ask was withdrawn", declined: "the ask was declined" };

/** What became of runs and asks that a settlement no longer moves. */
export const runStates = query<readonly string[], ReadonlyMap<string, RunState>>({
  name: "run-states",
  needs: "settle-clashes",
  run: async ({ tx }, runIds) => {
    if (runIds.length === 0) return new Map();
    const firings = await tx.firing.findMany({ where: { firingId: { in: [...runIds] } }, select: { firingId: true, status: true, plan: { select: PLAN_TITLE } } });
    const asks = await tx.ask.findMany({ where: { askId: { in: [...runIds] } }, select: { askId: true, status: true, casting: { select: { title: true } } } });
    return new Map([
      ...firings.map(({ firingId, status, plan }) => [firingId, { title: titleOf(plan), state: FIRING_WORDS[status] }] as const),
      ...asks.map(({ askId, status, casting }) => [askId, { title: casting.title, state: ASK_WORDS[status] }] as const),
    ]);
  },
});
