"use server";

import type { ActionState } from "@/lib/contracts/action-state";
import type { Outcome } from "@/lib/domain/refusal";
import { addClosure } from "@/lib/server/commands/add-closure";
import { removeClosure } from "@/lib/server/commands/remove-closure";
import { setStaffedHours } from "@/lib/server/commands/set-staffed-hours";
import { formAction, runAction } from "@/lib/server/form-action";

export type Span = { readonly weekday: number; readonly opens: string; readonly closes: string; readonly hands: string };

export async function setHoursAction(weekly: readonly Span[]): Promise<Outcome<{ readonly days: number; readonly thinLifts: number }>> {
  return runAction(setStaffedHours, { weekly });
}

export async function addClosureAction(_: ActionState, form: FormData): Promise<ActionState> {
  const raw = { from: form.get("from"), to: form.get("to") ?? "", reason: form.get("reason") };
  return formAction(addClosure, raw, { said: () => "The closure is on everybody's calendar. Lifts that fall into it show under Clashes." });
}

export async function removeClosureAction(form: FormData): Promise<Outcome<unknown>> {
  return runAction(removeClosure, { closureId: form.get("closureId"), reason: form.get("reason") ?? "" });
}
