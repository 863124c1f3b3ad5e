import { refuse, type Outcome, ok } from "@/lib/domain/refusal";
import type { Tx } from "@/lib/server/db";

async function find(tx: Tx, askId: string) {
  return tx.ask.findFirst({ where: { askId }, include: { casting: true, kiln: { select: { name: true } } } });
}

export type AskRow = NonNullable<Awaited<ReturnType<typeof find>>>;

/** Locks an ask that is still open; refused when there is none, or when it was answered already. */
export async function lockOpenAsk(tx: Tx, askId: string): Promise<Outcome<AskRow>> {
  await tx.$executeRaw`SELECT 1 FROM ask WHERE ask_id = ${askId}::uuid FOR UPDATE`;
  const ask = await find(tx, askId);
  if (ask === null) return refuse({ code: "not-found", field: "askId", message: "There is no such ask in this workshop." });
  if (ask.status !== "open") return refuse({ code: "answered", field: "askId", message: `The ask for ${ask.casting.title} was ${ask.status} already.` });
  return ok(ask);
}
