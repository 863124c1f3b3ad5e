import { can } from "@/lib/domain/access/roles";
import { query } from "@/lib/server/query";
import { castingsWithNext, type CastingLine } from "@/lib/server/rows/castings-with-next";

export type CastingsScreen = {
  readonly castings: readonly CastingLine[];
  /** Whether this person may look at everybody's. */
  readonly maySeeAll: boolean;
  readonly showsAll: boolean;
};

/** One's own castings; for a manager who asks for them, everybody's. */
export const listCastings = query({
  name: "castings",
  needs: "write-castings",
  run: async ({ who, tx, now }, { all }: { readonly all: boolean }): Promise<CastingsScreen> => {
    const maySeeAll = can(who.roles, "manage-runs");
    const showsAll = all && maySeeAll;
    return { maySeeAll, showsAll, castings: await castingsWithNext(tx, now, showsAll ? undefined : who.memberId) };
  },
});
