import { isScope, type Scope } from "@/lib/domain/access/scopes";
import { query } from "@/lib/server/query";

export type TokenLine = {
  readonly tokenId: string;
  readonly name: string;
  /** Its first characters. */
  readonly prefix: string;
  readonly scopes: readonly Scope[];
  readonly createdMs: number;
  readonly lastUsedMs: number | null;
};

/** One's own tokens that still open this workshop, the newest first. */
export const ownTokens = query<undefined, readonly TokenLine[]>({
  name: "own-tokens",
  needs: "see-workshop",
  run: async ({ who, tx }) => {
    const rows = await tx.accessToken.findMany({ where: { memberId: who.memberId, revokedAt: null }, orderBy: [{ createdAt: "desc" }, { tokenId: "asc" }] });
    return rows.map(({ tokenId, name, prefix, scopes, createdAt, lastUsedAt }) => ({
      tokenId, name, prefix, scopes: scopes.filter(isScope), createdMs: createdAt.getTime(), lastUsedMs: lastUsedAt?.getTime() ?? null,
    }));
  },
});
