import type { ClashState } from "@/lib/domain/booking/clash";
import type { Tx } from "@/lib/server/db";

export type ClashAsk = {
  readonly askId: string;
  readonly title: string;
  readonly owner: string;
  readonly kiln: string;
  readonly fromMs: number;
  readonly toMs: number;
  readonly neededBy: string | null;
  readonly importance: number;
  readonly note: string;
};

/** The open asks with what a manager weighs them by, the earliest weeks first. */
export async function loadWishes(tx: Tx, { asks, equipment }: ClashState): Promise<readonly ClashAsk[]> {
  const rows = new Map((await tx.ask.findMany({ where: { status: "open" } })).map((row) => [row.askId, row]));
  const names = new Map(equipment.map((e) => [e.equipmentId, e.name]));
  const wishes = asks.map((ask): ClashAsk => {
    const row = rows.get(ask.askId);
    return {
      askId: ask.askId,
      title: ask.title,
      owner: ask.memberName,
      kiln: names.get(ask.kilnId) ?? "retired equipment",
      fromMs: ask.from.epochMilliseconds,
      toMs: ask.to.epochMilliseconds,
      neededBy: row?.neededBy?.toISOString().slice(0, 10) ?? null,
      importance: row?.importance ?? 2,
      note: row?.note ?? "",
    };
  });
  return wishes.toSorted((one, other) => one.fromMs - other.fromMs);
}
