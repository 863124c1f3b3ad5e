"use server";

import type { ActionState } from "@/lib/contracts/action-state";
import type { Outcome } from "@/lib/domain/refusal";
import { cancelRun } from "@/lib/server/commands/cancel-run";
import { confirmHold } from "@/lib/server/commands/confirm-hold";
import { leaveFiring } from "@/lib/server/commands/leave-firing";
import { lengthenBooking } from "@/lib/server/commands/lengthen-booking";
import { releaseRun } from "@/lib/server/commands/release-run";
import { setExpectedEnd } from "@/lib/server/commands/set-expected-end";
import { shortenBooking } from "@/lib/server/commands/shorten-booking";
import { formAction, runAction } from "@/lib/server/form-action";
import { formWallTime } from "@/lib/server/form-wall-time";

export async function cancelAction(form: FormData): Promise<Outcome<unknown>> {
  return runAction(cancelRun, { firingId: form.get("firingId"), reason: form.get("reason") ?? "" });
}

export async function confirmAction(form: FormData): Promise<Outcome<unknown>> {
  return runAction(confirmHold, { firingId: form.get("firingId") });
}

export async function releaseAction(form: FormData): Promise<Outcome<unknown>> {
  return runAction(releaseRun, { firingId: form.get("firingId"), reason: form.get("reason") });
}

export async function expectAction(_: ActionState, form: FormData): Promise<ActionState> {
  const at = await formWallTime(form, "at");
  if (!at.ok) return { problems: at.problems };
  const raw = { firingId: form.get("firingId"), at: at.value, reason: form.get("reason") };
  return formAction(setExpectedEnd, raw, { said: () => "The expected end is kept. Anybody it touches is seen under Clashes." });
}

export async function lengthenAction(_: ActionState, form: FormData): Promise<ActionState> {
  const kilnTo = await formWallTime(form, "kilnTo");
  if (!kilnTo.ok) return { problems: kilnTo.problems };
  const raw = { firingId: form.get("firingId"), kilnTo: kilnTo.value, reason: form.get("reason") ?? "" };
  return formAction(lengthenBooking, raw, { said: () => "The booking is longer now, and the unloading moved with it." });
}

export async function leaveAction(form: FormData): Promise<Outcome<unknown>> {
  return runAction(leaveFiring, { firingId: form.get("firingId"), castingId: form.get("castingId"), reason: form.get("reason") ?? "" });
}

export async function shortenAction(_: ActionState, form: FormData): Promise<ActionState> {
  const kilnTo = await formWallTime(form, "freeFrom");
  if (!kilnTo.ok) return { problems: kilnTo.problems };
  const raw = { firingId: form.get("firingId"), kilnTo: kilnTo.value, reason: form.get("reason") ?? "" };
  const sent = await formAction(shortenBooking, raw, { said: () => "The booking is shorter now, and the unloading moved with it." });
  return { ...sent, problems: sent.problems.map((problem) => (problem.field === "kilnTo" ? { ...problem, field: "freeFrom" } : problem)) };
}
