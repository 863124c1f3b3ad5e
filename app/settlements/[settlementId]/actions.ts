"use server";

import type { ActionState } from "@/lib/contracts/action-state";
import { answerSettlement } from "@/lib/server/commands/answer-settlement";
import { formAction } from "@/lib/server/form-action";

export async function answerSettlementAction(_: ActionState, form: FormData): Promise<ActionState> {
  const raw = { settlementId: form.get("settlementId"), agrees: form.get("answer") === "agree", words: form.get("words") ?? "" };
  return formAction(answerSettlement, raw, { said: ({ agrees }) => (agrees ? "The managers see that you agree." : "The managers see that you object, and why. Your run stands until one of them moves it.") });
}
