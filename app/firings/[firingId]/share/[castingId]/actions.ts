"use server";

import type { ActionState } from "@/lib/contracts/action-state";
import { paths } from "@/lib/contracts/paths";
import { proposeJoining } from "@/lib/server/commands/propose-joining";
import { formAction } from "@/lib/server/form-action";

export async function proposeAction(_: ActionState, form: FormData): Promise<ActionState> {
  const raw = { firingId: form.get("firingId"), castingId: form.get("castingId"), version: Number(form.get("version")), requestKey: form.get("requestKey") };
  return formAction(proposeJoining, raw, { goTo: ({ joiningId, agreed }) => (agreed ? paths.firing(String(raw.firingId)) : paths.joining(joiningId)) });
}
