"use server";

import type { ActionState } from "@/lib/contracts/action-state";
import type { Outcome } from "@/lib/domain/refusal";
import { answerJoining } from "@/lib/server/commands/answer-joining";
import { withdrawJoining } from "@/lib/server/commands/withdraw-joining";
import { formAction, runAction } from "@/lib/server/form-action";

export async function answerAction(_: ActionState, form: FormData): Promise<ActionState> {
  return formAction(answerJoining, { joiningId: form.get("joiningId"), accepts: form.get("answer") === "yes" }, { said: ({ status }) => SAID[status] ?? "Your answer is kept." });
}

const SAID: Readonly<Record<string, string>> = { agreed: "Everybody has accepted: it is booked.", declined: "It is declined; the firing stays as it is.", open: "Your answer is kept. Others have still to answer." };

export async function withdrawAction(form: FormData): Promise<Outcome<unknown>> {
  return runAction(withdrawJoining, { joiningId: form.get("joiningId") });
}
