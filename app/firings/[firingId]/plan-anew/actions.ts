"use server";

import type { ActionState } from "@/lib/contracts/action-state";
import { paths } from "@/lib/contracts/paths";
import { replanRun } from "@/lib/server/commands/replan-run";
import { formAction } from "@/lib/server/form-action";

export async function planAnewAction(_: ActionState, form: FormData): Promise<ActionState> {
  const raw = {
    firingId: form.get("firingId"),
    version: Number(form.get("version")),
    reason: form.get("reason") ?? "",
    requestKey: form.get("requestKey"),
  };
  return formAction(replanRun, raw, { goTo: ({ firingId }) => paths.firing(firingId) });
}
