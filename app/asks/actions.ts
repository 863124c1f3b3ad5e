"use server";

import type { ActionState } from "@/lib/contracts/action-state";
import { changeAsk } from "@/lib/server/commands/change-ask";
import { setHoldLimit } from "@/lib/server/commands/set-hold-limit";
import { formAction } from "@/lib/server/form-action";

export async function changeAskAction(_: ActionState, form: FormData): Promise<ActionState> {
  const neededBy = form.get("neededBy");
  const raw = {
    askId: form.get("askId"),
    fromDate: form.get("fromDate"),
    ...(neededBy === null || neededBy === "" ? {} : { neededBy }),
    lateDays: Number(form.get("lateDays")),
    importance: Number(form.get("importance")),
    note: form.get("note") ?? "",
  };
  return formAction(changeAsk, raw, { said: () => "The ask is changed. It has waited as long as before." });
}

export async function holdLimitAction(_: ActionState, form: FormData): Promise<ActionState> {
  return formAction(setHoldLimit, { holdsEach: Number(form.get("holdsEach")) }, { said: () => "The limit is kept; what is held already stays held." });
}
