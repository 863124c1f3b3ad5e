"use server";

import type { ActionState } from "@/lib/contracts/action-state";
import type { Outcome } from "@/lib/domain/refusal";
import { showHour } from "@/lib/domain/time/tomorrow";
import { addClosure } from "@/lib/server/commands/add-closure";
import { removeClosure } from "@/lib/server/commands/remove-closure";
import { setStaffedHours } from "@/lib/server/commands/set-staffed-hours";
import { setTomorrowHour } from "@/lib/server/commands/set-tomorrow-hour";
import { formAction, runAction } from "@/lib/server/form-action";

export type Span = { readonly weekday: number; readonly opens: string; readonly closes: string; readonly hands: string };

export async function setHoursAction(weekly: readonly Span[]): Promise<Outcome<{ readonly days: number; readonly thinLifts: number }>> {
  return runAction(setStaffedHours, { weekly });
}

export async function setTomorrowHourAction(_: ActionState, form: FormData): Promise<ActionState> {
  return formAction(setTomorrowHour, { hour: form.get("hour") }, { said: ({ hour }) => `Tomorrow is mailed from ${showHour(hour)} on. Whoever has had today's mail gets no second one.` });
}

export async function addClosureAction(_: ActionState, form: FormData): Promise<ActionState> {
  const raw = { from: form.get("from"), to: form.get("to") ?? "", reason: form.get("reason") };
  return formAction(addClosure, raw, { said: () => "The closure is on everybody's calendar. Lifts that fall into it show under Clashes." });
}

export async function removeClosureAction(form: FormData): Promise<Outcome<unknown>> {
  return runAction(removeClosure, { closureId: form.get("closureId"), reason: form.get("reason") ?? "" });
}
