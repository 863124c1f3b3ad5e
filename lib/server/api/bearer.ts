import { isScope, type Scope } from "@/lib/domain/access/scopes";
import { rolesOf } from "@/lib/domain/access/roles";
import { now, toDate } from "@/lib/server/clock";
import { useToken } from "@/lib/server/db";
import { env } from "@/lib/server/env";
import { hashToken, SCRIPT_TOKEN } from "@/lib/server/tokens";
import type { Who } from "@/lib/server/who";

/** A script may make this many minutes' worth of requests at once. */
const BURST_MINUTES = 0.5;

export type Bearer =
  | { readonly is: "known"; readonly who: Who; readonly scopes: readonly Scope[] }
  | { readonly is: "too-fast"; readonly waitSeconds: number }
  /** No token was sent, or one that opens nothing: unknown, revoked, or of somebody who left. */
  | { readonly is: "nobody" | "worthless" };

const SENT = /^Bearer +([\w~+/.=-]+) *$/i;

/**
 * Who a request's Authorization header speaks for. Every request of a live token counts against its allowance, whatever
 * becomes of it. The allowance is kept in the database, so that several processes together give out no more than one.
 */
export async function bearerOf(authorization: string | null): Promise<Bearer> {
  if (authorization === null) return { is: "nobody" };
  const token = SENT.exec(authorization)?.[1];
  if (token?.startsWith(SCRIPT_TOKEN) !== true) return { is: "worthless" };
  const { apiPerMinute } = env();
  const use = await useToken(hashToken(token), toDate(now()), Math.max(1, Math.floor(apiPerMinute * BURST_MINUTES)), apiPerMinute / 60);
  if (use === undefined) return { is: "worthless" };
  if (use.wait_seconds !== null) return { is: "too-fast", waitSeconds: Math.max(1, Math.ceil(use.wait_seconds)) };
  const who: Who = {
    personId: use.person_id,
    memberId: use.member_id,
    workshopId: use.workshop_id,
    workshopName: use.workshop_name,
    timeZone: use.time_zone,
    name: use.name,
    email: use.email,
    roles: rolesOf(use.roles),
    token: { tokenId: use.token_id, name: use.token_name },
  };
  return { is: "known", who, scopes: use.scopes.filter(isScope) };
}
