import type { Temporal } from "temporal-polyfill";
import { toDate } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";
import { keptMoves } from "@/lib/server/rows/kept-moves";
import type { KeptMove } from "@/lib/server/ways-out/write-settlement";

/** A settlement that waits for a member's answer, or an answer that waits for a manager. */
export type SettlementWaiting = { readonly settlementId: string; readonly by: string; readonly titles: readonly string[]; readonly words: string };

/** Settlements that moved runs of this member, who has not answered; while those runs stand where they were put. */
export async function answersWanted(tx: Tx, memberId: string, now: Temporal.Instant): Promise<readonly SettlementWaiting[]> {
  const rows = await tx.settlementTold.findMany({ where: { memberId, answeredAt: null }, include: { settlement: { include: { member: { select: { name: true } } } } }, orderBy: { settlement: { acceptedAt: "asc" } } });
  return waiting(tx, now, rows, ({ settlement }) => settlement.member.name);
}

/** Objections, while what is objected to stands as it was put. */
export async function objections(tx: Tx, now: Temporal.Instant): Promise<readonly SettlementWaiting[]> {
  const rows = await tx.settlementTold.findMany({ where: { agrees: false }, include: { settlement: true, member: { select: { name: true } } }, orderBy: { answeredAt: "asc" } });
  return waiting(tx, now, rows, ({ member }) => member.name);
}

type Told = { readonly settlementId: string; readonly memberId: string; readonly words: string | null; readonly settlement: { readonly moves: unknown } };

async function waiting<T extends Told>(tx: Tx, now: Temporal.Instant, rows: readonly T[], by: (row: T) => string): Promise<readonly SettlementWaiting[]> {
  const own = rows.map((row) => ({ row, moves: keptMoves(row.settlement.moves).filter(({ told }) => told.includes(row.memberId)) }));
  const stands = await standing(tx, now, own.flatMap(({ moves }) => moves));
  return own.flatMap(({ row, moves }) => {
    const titles = moves.filter(stands).map(({ title }) => title);
    return titles.length === 0 ? [] : [{ settlementId: row.settlementId, by: by(row), titles, words: row.words ?? "" }];
  });
}

/** Whether a run is still to come, and where the settlement put it. */
async function standing(tx: Tx, now: Temporal.Instant, moves: readonly KeptMove[]): Promise<(move: KeptMove) => boolean> {
  const rows = await tx.booking.findMany({
    where: { firingId: { in: moves.map(({ firingId }) => firingId) }, purpose: "kiln", standing: true, startsAt: { gt: toDate(now) }, firing: { status: "planned" } },
    select: { firingId: true, equipmentId: true, startsAt: true },
  });
  return ({ firingId, kilnId, kilnFrom }) => rows.some((row) => row.firingId === firingId && row.equipmentId === kilnId && row.startsAt.getTime() === Date.parse(kilnFrom));
}
