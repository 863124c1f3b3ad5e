import { seasonPlanSchema, type SeasonPlan } from "@/lib/contracts/replan";
import { query } from "@/lib/server/query";
import { isStale, replanAges } from "@/lib/server/rows/replan";
import { toPlainDate } from "@/lib/server/clock";

export type SeasonState = "waiting" | "searching" | "placing" | "ready" | "failed" | "lost" | "stale";

export type SeasonScreen = {
  readonly replanId: string;
  readonly by: string;
  readonly from: string;
  readonly to: string;
  readonly state: SeasonState;
  readonly seconds: number;
  /** Since it was begun, until it ended; null while it waits. */
  readonly ran: number | null;
  readonly isStopping: boolean;
  readonly runs: number | null;
  readonly moves: number | null;
  readonly cost: number | null;
  readonly bound: number | null;
  readonly failure: string | null;
  readonly plan: SeasonPlan | null;
  /** The plan of the same days before this one, which was not accepted. */
  readonly before: SeasonPlan | null;
  readonly settlementId: string | null;
};

/** The season that was last planned anew, or is; null when none ever was. */
export const seasonScreen = query<undefined, SeasonScreen | null>({
  name: "season",
  needs: "settle-clashes",
  run: async ({ tx }) => {
    const row = await tx.replan.findFirst({ orderBy: { askedAt: "desc" }, include: { member: { select: { name: true } } } });
    if (row === null) return null;
    const { replanId, fromDay, toDay, settlementId, seconds, runs, moves, cost, bound, failure } = row;
    const ages = await replanAges(tx, replanId);
    const earlier = row.state !== "ready" ? null : await tx.replan.findFirst({ where: { replanId: { not: replanId }, fromDay, toDay, state: "ready", settlementId: null, askedAt: { lt: row.askedAt } }, orderBy: { askedAt: "desc" } });
    return {
      replanId, settlementId, seconds, runs, moves, cost, bound, failure,
      by: row.member.name,
      from: toPlainDate(fromDay).toString(),
      to: toPlainDate(toDay).toString(),
      state: isStale(row.state, ages) ? "stale" : (row.state as SeasonState),
      ran: ages.begun,
      isStopping: row.stopAskedAt !== null,
      plan: row.plan === null ? null : seasonPlanSchema.parse(row.plan),
      before: earlier === null ? null : seasonPlanSchema.parse(earlier.plan),
    };
  },
});
