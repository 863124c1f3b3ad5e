import type { SettlementKind } from "@/lib/contracts/ways-out";
import { toDate } from "@/lib/server/clock";
import type { Ctx } from "@/lib/server/command";
import type { MadeMove } from "@/lib/server/ways-out/write-moves";

export type Accepted = { readonly settlementId: string; readonly kind: SettlementKind; readonly reason: string; readonly made: readonly MadeMove[] };

/** A move as it is kept with its settlement; `told` are those who may answer for it. */
export type KeptMove = Omit<MadeMove, "runId">;

/** Keeps a settlement that was carried out, and whom it was told to, so that they can answer. */
export async function writeSettlement({ tx, who, now }: Ctx, { settlementId, kind, reason, made }: Accepted): Promise<void> {
  const { workshopId, memberId } = who;
  const moves = made.map(({ runId: _run, ...kept }): KeptMove => kept);
  await tx.settlement.create({ data: { workshopId, settlementId, memberId, kind, reason, moves: JSON.parse(JSON.stringify(moves)), acceptedAt: toDate(now) } });
  const told = new Set(made.flatMap((move) => move.told));
  await tx.settlementTold.createMany({ data: [...told].map((one) => ({ workshopId, settlementId, memberId: one })) });
}
