"use server";

import type { ActionState } from "@/lib/contracts/action-state";
import { readNumber } from "@/lib/contracts/form-number";
import { setPowerLimit } from "@/lib/server/commands/set-power-limit";
import { formAction } from "@/lib/server/form-action";

export async function powerAction(_: ActionState, form: FormData): Promise<ActionState> {
  const typed = form.get("kw");
  const text = typeof typed === "string" ? typed.trim() : "";
  const kw = text === "" ? { ok: true as const, value: null } : readNumber("kw", text, { label: "The limit", unit: "kW" });
  if (!kw.ok) return { problems: kw.problems };
  return formAction(setPowerLimit, { kw: kw.value }, {
    said: ({ tooStrong }) => (tooStrong.length === 0 ? "The limit is kept." : `The limit is kept. ${tooStrong.join(", ")} alone would draw more and can no longer be booked.`),
  });
}
