"use server";

import type { ActionState } from "@/lib/contracts/action-state";
import { markNoticesRead } from "@/lib/server/commands/mark-notices-read";
import { formAction } from "@/lib/server/form-action";

export async function markReadAction(_: ActionState, form: FormData): Promise<ActionState> {
  return formAction(markNoticesRead, { upTo: form.get("upTo") }, {});
}
