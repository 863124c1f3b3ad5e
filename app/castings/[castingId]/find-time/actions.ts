"use server";

import type { ActionState } from "@/lib/contracts/action-state";
import { paths } from "@/lib/contracts/paths";
import type { Outcome } from "@/lib/domain/refusal";
import { bookRun } from "@/lib/server/commands/book-run";
import { holdRun } from "@/lib/server/commands/hold-run";
import { createAsk } from "@/lib/server/commands/create-ask";
import { withdrawAsk } from "@/lib/server/commands/withdraw-ask";
import { formAction, runAction } from "@/lib/server/form-action";

export async function bookAction(_: ActionState, form: FormData): Promise<ActionState> {
  return formAction(bookRun, offeredRun(form), { goTo: ({ firingId }) => paths.firing(firingId) });
}

export async function holdAction(_: ActionState, form: FormData): Promise<ActionState> {
  return formAction(holdRun, offeredRun(form), { goTo: ({ firingId }) => paths.firing(firingId) });
}

function offeredRun(form: FormData) {
  const steamFrom = form.get("steamFrom");
  return {
    castingId: form.get("castingId"),
    kilnId: form.get("kilnId"),
    kilnFrom: form.get("kilnFrom"),
    requestKey: form.get("requestKey"),
    ...(steamFrom === null || steamFrom === "" ? {} : { steamFrom }),
  };
}

export async function askAction(_: ActionState, form: FormData): Promise<ActionState> {
  const [kilnId, neededBy] = [form.get("kilnId"), form.get("neededBy")];
  const raw = {
    castingId: form.get("castingId"),
    ...(kilnId === null || kilnId === "" ? {} : { kilnId }),
    ...(neededBy === null || neededBy === "" ? {} : { neededBy }),
    lateDays: Number(form.get("lateDays") ?? 0),
    fromDate: form.get("fromDate"),
    importance: Number(form.get("importance")),
    note: form.get("note") ?? "",
  };
  return formAction(createAsk, raw, { said: () => "Your ask is kept. What becomes free is offered to you in turn, and you are told." });
}

export async function withdrawAskAction(form: FormData): Promise<Outcome<unknown>> {
  return runAction(withdrawAsk, { askId: form.get("askId") });
}
