"use server";

import type { ActionState } from "@/lib/contracts/action-state";
import { paths } from "@/lib/contracts/paths";
import { readRunTime } from "@/lib/contracts/run-time";
import { moveRun } from "@/lib/server/commands/move-run";
import { formAction } from "@/lib/server/form-action";

export async function moveAction(_: ActionState, form: FormData): Promise<ActionState> {
  const time = readRunTime(form.get("time"));
  const raw = {
    ...time,
    firingId: form.get("firingId"),
    reason: form.get("reason") ?? "",
    version: Number(form.get("version")),
    // Choosing another time after a refusal is another request.
    requestKey: `${String(form.get("requestKey"))}-${time.kilnId.slice(0, 8)}-${time.kilnFrom}`,
  };
  return formAction(moveRun, raw, { goTo: ({ firingId }) => paths.firing(firingId) });
}
