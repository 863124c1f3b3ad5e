import { can } from "@/lib/domain/access/roles";
import { query } from "@/lib/server/query";
import { keptMoves } from "@/lib/server/rows/kept-moves";
import type { KeptMove } from "@/lib/server/ways-out/write-settlement";

export type SettlementPerson = {
  readonly name: string;
  readonly you: boolean;
  /** Null until there is an answer. */
  readonly agrees: boolean | null;
  readonly words: string;
  readonly answeredAtMs: number | null;
};

export type SettlementScreen = {
  readonly settlementId: string;
  readonly kind: string;
  readonly reason: string;
  readonly by: string;
  readonly acceptedAtMs: number;
  /** The name of the kiln before, and of the one now. */
  readonly moves: readonly (KeptMove & { readonly kiln: string; readonly fromKiln: string; readonly yours: boolean })[];
  /** Everybody who was told, for managers; others see only themselves. */
  readonly told: readonly SettlementPerson[];
  readonly settles: boolean;
};

/** A settlement that was accepted: what moved, who was told and what they say. For managers, and for those it was told to. */
export const settlementScreen = query<string, SettlementScreen | null>({
  name: "settlement",
  needs: "see-workshop",
  run: async ({ tx, who }, settlementId) => {
    const row = await tx.settlement.findFirst({ where: { settlementId }, include: { member: { select: { name: true } }, told: { include: { member: { select: { name: true } } }, orderBy: { memberId: "asc" } } } });
    if (row === null) return null;
    const settles = can(who.roles, "settle-clashes");
    const told = row.told.filter(({ memberId }) => settles || memberId === who.memberId);
    if (!settles && told.length === 0) return null;
    const names = new Map((await tx.equipment.findMany({ where: { kind: "kiln" }, select: { equipmentId: true, name: true } })).map(({ equipmentId, name }) => [equipmentId, name]));
    const kiln = (id: string | undefined): string => names.get(id ?? "") ?? "a retired kiln";
    return {
      settlementId, settles, kind: row.kind, reason: row.reason, by: row.member.name, acceptedAtMs: row.acceptedAt.getTime(),
      moves: keptMoves(row.moves).map((move) => ({ ...move, kiln: kiln(move.kilnId), fromKiln: kiln(move.from?.kilnId), yours: move.told.includes(who.memberId) })),
      told: told.map(({ memberId, member, agrees, words, answeredAt }) => ({ name: member.name, you: memberId === who.memberId, agrees, words: words ?? "", answeredAtMs: answeredAt?.getTime() ?? null })),
    };
  },
});
