"use server";

import type { ActionState } from "@/lib/contracts/action-state";
import { paths } from "@/lib/contracts/paths";
import { askReplan } from "@/lib/server/commands/ask-replan";
import { stopReplan } from "@/lib/server/commands/stop-replan";
import { formAction } from "@/lib/server/form-action";

export async function askReplanAction(_: ActionState, form: FormData): Promise<ActionState> {
  return formAction(askReplan, { from: form.get("from"), to: form.get("to"), seconds: Number(form.get("seconds")) }, { goTo: () => paths.season });
}

export async function stopReplanAction(_: ActionState, form: FormData): Promise<ActionState> {
  return formAction(stopReplan, { replanId: form.get("replanId") }, {});
}
