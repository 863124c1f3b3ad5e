import type { Objection } from "@/lib/domain/settling/rows/settled-rows";
import { verifyRows } from "@/lib/domain/settling/rows/verify-rows";
import { refuse, type Refusal } from "@/lib/domain/refusal";
import { logObjections } from "@/lib/server/log";
import { settledRows } from "@/lib/server/rows/settled-rows";
import type { Statements } from "@/lib/server/statements";

/** What does not hold of a settlement as it stands in the database; empty when all holds. */
export async function objectionsTo(tx: Statements, settlementId: string): Promise<readonly Objection[]> {
  const rows = await settledRows(tx, settlementId);
  return rows === undefined ? [{ fact: "whole", firingId: null, sentence: "The settlement was not kept." }] : verifyRows(rows);
}

/** Refuses a settlement that was written and does not hold, which is a fault of what worked it out: the log has all of it. */
export async function verifySettlement(tx: Statements, settlementId: string): Promise<Refusal | undefined> {
  const objections = await objectionsTo(tx, settlementId);
  const [first] = objections;
  if (first === undefined) return undefined;
  const id = logObjections(settlementId, objections);
  const sentence = first.sentence.replace(/\.$/, "");
  return refuse({ code: "does-not-hold", field: "moves", message: `Nothing was moved, because the check of what was written found a fault (number ${id}): ${sentence}.`, data: { id, fact: first.fact, runId: first.firingId } });
}
