import { paths } from "@/lib/contracts/paths";
import { answerSettlementSchema } from "@/lib/contracts/settlement";
import { ok, refuse } from "@/lib/domain/refusal";
import { toDate } from "@/lib/server/clock";
import { command } from "@/lib/server/command";
import { keptMoves } from "@/lib/server/rows/kept-moves";
import { tell } from "@/lib/server/tell";

/** Somebody whom a settlement was told to agrees or objects, or changes the answer. Nothing moves because of it. */
export const answerSettlement = command({
  name: "answer-settlement",
  needs: "see-workshop",
  input: answerSettlementSchema,
  run: async (ctx, { settlementId, agrees, words }) => {
    const { tx, who, now } = ctx;
    await tx.$executeRaw`SELECT FROM settlement_told WHERE settlement_id = ${settlementId}::uuid AND member_id = ${who.memberId}::uuid FOR UPDATE`;
    const told = await tx.settlementTold.findFirst({ where: { settlementId, memberId: who.memberId }, include: { settlement: true } });
    if (told === null) return refuse(NOT_TOLD);
    await tx.settlementTold.updateMany({ where: { settlementId, memberId: who.memberId }, data: { agrees, words, answeredAt: toDate(now) } });
    await ctx.audit({ subject: "settlement", subjectId: settlementId, ...(told.agrees === null ? {} : { before: { agrees: told.agrees, words: told.words } }), after: { agrees, words } });
    const titles = keptMoves(told.settlement.moves).filter((move) => move.told.includes(who.memberId)).map(({ title }) => title);
    const managers = await tx.member.findMany({ where: { active: true, roles: { has: "manager" }, memberId: { not: who.memberId } }, select: { memberId: true } });
    const said = agrees ? "agrees to" : "objects to";
    await tell(ctx, { to: managers.map(({ memberId }) => memberId), kind: "replied", text: `${who.name} ${said} the settlement that moved ${titles.join(" and ")}.`, reason: words, href: paths.settlement(settlementId) });
    return ok({ settlementId, agrees });
  },
});

const NOT_TOLD = { code: "not-found", message: "There is no settlement here that moved a run of yours.", field: "settlementId" };
