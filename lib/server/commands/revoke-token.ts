import { revokeTokenSchema } from "@/lib/contracts/tokens";
import { ok, refuse } from "@/lib/domain/refusal";
import { toDate } from "@/lib/server/clock";
import { command } from "@/lib/server/command";

/** Makes a token of one's own worthless, from the very next request on. */
export const revokeToken = command({
  name: "revoke-token",
  needs: "see-workshop",
  input: revokeTokenSchema,
  run: async ({ who, tx, now, audit }, { tokenId }) => {
    const token = await tx.accessToken.findFirst({ where: { tokenId, memberId: who.memberId } });
    if (token === null) return refuse({ code: "not-found", message: "You have no such token in this workshop.", field: "tokenId" });
    const { count } = await tx.accessToken.updateMany({ where: { tokenId, revokedAt: null }, data: { revokedAt: toDate(now) } });
    if (count === 0) return refuse({ code: "already-revoked", message: `${token.name} was revoked already.` });
    await audit({ subject: "token", subjectId: tokenId, before: { name: token.name, prefix: token.prefix }, after: { revoked: true } });
    return ok({ name: token.name });
  },
});
