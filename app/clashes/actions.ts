"use server";

import { readJsonText } from "@/lib/contracts/read-json-text";
import type { Outcome } from "@/lib/domain/refusal";
import { acceptSettlement } from "@/lib/server/commands/accept-settlement";
import { bookAsk } from "@/lib/server/commands/book-ask";
import { declineAsk } from "@/lib/server/commands/decline-ask";
import { releaseRun } from "@/lib/server/commands/release-run";
import { runAction } from "@/lib/server/form-action";

export async function releaseAction(form: FormData): Promise<Outcome<unknown>> {
  return runAction(releaseRun, { firingId: form.get("firingId"), reason: form.get("reason") });
}

export async function declineAskAction(form: FormData): Promise<Outcome<unknown>> {
  return runAction(declineAsk, { askId: form.get("askId"), reason: form.get("reason") });
}

export async function bookAskAction(form: FormData): Promise<Outcome<unknown>> {
  return runAction(bookAsk, { askId: form.get("askId"), requestKey: form.get("requestKey") });
}

export async function acceptWayAction(form: FormData): Promise<Outcome<unknown>> {
  const [moves, fingerprint, reason, requestKey] = ["moves", "fingerprint", "reason", "requestKey"].map((name) => form.get(name));
  return runAction(acceptSettlement, { moves: readJsonText(moves), fingerprint, reason, requestKey });
}
