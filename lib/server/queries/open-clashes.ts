import { findClashes } from "@/lib/domain/booking/clash";
import { query } from "@/lib/server/query";
import { loadClashState } from "@/lib/server/rows/clash-state";

/** How many things on the calendar cannot stand, for the manager's first screen. */
export const openClashCount = query<undefined, number>({
  name: "open-clash-count",
  needs: "settle-clashes",
  run: async ({ who, tx, now }) => findClashes(await loadClashState(tx, who, now)).length,
});
