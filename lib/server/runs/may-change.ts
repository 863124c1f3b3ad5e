import { REASON_MIN_CHARS } from "@/lib/contracts/runs";
import { can } from "@/lib/domain/access/roles";
import { refuse, type Refusal } from "@/lib/domain/refusal";
import { NOT_ALLOWED, type Ctx } from "@/lib/server/command";
import { isIn, owedReason } from "@/lib/server/rows/in-firing";
import type { LockedFiring } from "@/lib/server/rows/lock-firing";
import { notPlanned } from "@/lib/server/runs/end-run";

/** What is done to the run, as it stands in sentences: "moves it", "it moves". */
export type ChangeWords = { readonly does: string; readonly happens: string };

/** Only a planned run, as the person saw it, is changed: by its owner, or by the manager who owes a reason. */
export function mayChangeRun({ who }: Pick<Ctx, "who">, firing: LockedFiring, { version, reason = "" }: { readonly version: number; readonly reason?: string | undefined }, { does, happens }: ChangeWords): Refusal | undefined {
  const mine = firing.memberId === who.memberId;
  if (!mine && !can(who.roles, "manage-runs")) {
    return refuse(isIn(firing, who.memberId) ? { ...NOT_ALLOWED, message: `${firing.member.name} ${does} for all, or the manager does. You can take your own casting out of it.` } : NOT_ALLOWED);
  }
  const status = notPlanned(firing);
  if (status) return status;
  if (firing.version !== version) {
    return refuse({ code: "changed-meanwhile", message: `Somebody changed this run since you opened the page. Look at it again before ${happens}.` });
  }
  if (!mine && reason.length < REASON_MIN_CHARS) {
    return refuse({
      code: "reason-too-short",
      field: "reason",
      value: reason,
      allowed: `${REASON_MIN_CHARS} characters or more`,
      message: `This run is ${firing.member.name}'s: say why ${happens}, in ${REASON_MIN_CHARS} characters or more.`,
    });
  }
  return owedReason(firing, reason, happens);
}
