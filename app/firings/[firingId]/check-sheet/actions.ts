"use server";

import { answerCheck } from "@/lib/server/commands/answer-check";
import { closeSheet } from "@/lib/server/commands/close-sheet";
import { markOpened } from "@/lib/server/commands/mark-opened";
import { startFiring } from "@/lib/server/commands/start-firing";
import { runAction } from "@/lib/server/form-action";
import type { Outcome } from "@/lib/domain/refusal";

export async function answerAction(firingId: string, code: string, kind: "tick" | "untick"): Promise<Outcome<unknown>> {
  return runAction(answerCheck, { firingId, code, kind });
}

export async function overrideAction(form: FormData): Promise<Outcome<unknown>> {
  return runAction(answerCheck, {
    firingId: form.get("firingId"),
    code: form.get("code"),
    kind: "override",
    reason: form.get("reason"),
  });
}

export async function startAction(form: FormData): Promise<Outcome<unknown>> {
  return runAction(startFiring, { firingId: form.get("firingId") });
}

export async function openAction(form: FormData): Promise<Outcome<unknown>> {
  return runAction(markOpened, { firingId: form.get("firingId") });
}

export async function closeAction(form: FormData): Promise<Outcome<unknown>> {
  return runAction(closeSheet, { firingId: form.get("firingId") });
}
