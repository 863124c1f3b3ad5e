import { sql, type Sql } from "@/lib/server/statements";

/**
 * When somebody begins to load the kiln of booking `k`: without a trolley nothing is booked for it, yet the kiln must be
 * empty from then on. Null where nothing is loaded.
 */
export const LOADING_BY_HAND: Sql = sql`(SELECT min(h.starts_at) FROM lift h WHERE h.workshop_id = current_workshop() AND h.firing_id = k.firing_id AND h.what = 'load' AND h.standing)`;
