"use server";

import { redirect } from "next/navigation";
import { paths } from "@/lib/contracts/paths";
import { readJsonText } from "@/lib/contracts/read-json-text";
import { sameSitePath } from "@/lib/contracts/same-site-path";
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

/** Goes on to what was done, or, when the calendar has changed meanwhile, to where it is worked out again. */
export async function acceptWayAction(form: FormData): Promise<Outcome<unknown>> {
  const [kind, moves, fingerprint, reason, requestKey] = ["kind", "moves", "fingerprint", "reason", "requestKey"].map((name) => form.get(name));
  const replanId = form.get("replanId") ?? undefined;
  const outcome = await runAction(acceptSettlement, { kind, replanId, moves: readJsonText(moves), fingerprint, reason, requestKey });
  const again = sameSitePath(form.get("again"));
  if (outcome.ok) redirect(paths.settlementDone(outcome.value.settlementId));
  if (outcome.problems[0].code === "changed-meanwhile" && again.startsWith(paths.clashes)) redirect(again);
  return outcome;
}
