import { makeTokenSchema } from "@/lib/contracts/tokens";
import { ok, refuse } from "@/lib/domain/refusal";
import { toDate } from "@/lib/server/clock";
import { command } from "@/lib/server/command";
import { newScriptToken } from "@/lib/server/tokens";

/** More than anybody has scripts for; an endless loop that makes tokens ends here. */
export const MOST_TOKENS = 20;

/**
 * Makes a token for a script of one's own. This answer is the only place where it stands whole: no receipt is kept
 * of it, because that would keep the token.
 */
export const makeToken = command({
  name: "make-token",
  needs: "see-workshop",
  input: makeTokenSchema,
  run: async ({ who, tx, now, audit }, { name, scopes }) => {
    if (who.token !== undefined) return refuse({ code: "not-allowed", message: "A token makes no other token; make it on the profile page." });
    const live = await tx.accessToken.count({ where: { memberId: who.memberId, revokedAt: null } });
    if (live >= MOST_TOKENS) return refuse({ code: "too-many-tokens", message: `You have ${live} tokens, and ${MOST_TOKENS} is the most. Revoke one that no script uses any more.` });
    const { token, tokenHash, prefix } = newScriptToken();
    const { tokenId } = await tx.accessToken.create({
      data: { workshopId: who.workshopId, memberId: who.memberId, name, prefix, tokenHash, scopes, createdAt: toDate(now) },
    });
    await audit({ subject: "token", subjectId: tokenId, after: { name, prefix, scopes } });
    return ok({ tokenId, name, token });
  },
});
