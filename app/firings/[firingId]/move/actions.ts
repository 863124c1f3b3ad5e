"use server";

import type { ActionState } from "@/lib/contracts/action-state";
import { paths } from "@/lib/contracts/paths";
import { moveRun } from "@/lib/server/commands/move-run";
import { formAction } from "@/lib/server/form-action";

export async function moveAction(_: ActionState, form: FormData): Promise<ActionState> {
  const steamFrom = form.get("steamFrom");
  const raw = {
    firingId: form.get("firingId"),
    kilnId: form.get("kilnId"),
    kilnFrom: form.get("kilnFrom"),
    reason: form.get("reason") ?? "",
    version: Number(form.get("version")),
    requestKey: form.get("requestKey"),
    ...(steamFrom === null || steamFrom === "" ? {} : { steamFrom }),
  };
  return formAction(moveRun, raw, { goTo: ({ firingId }) => paths.firing(firingId) });
}
