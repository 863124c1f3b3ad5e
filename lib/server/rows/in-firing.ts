import { REASON_MIN_CHARS } from "@/lib/contracts/runs";
import { refuse, type Refusal } from "@/lib/domain/refusal";
import type { LockedFiring } from "@/lib/server/rows/lock-firing";

type Shared = Pick<LockedFiring, "memberId"> & { readonly castings: readonly { readonly casting: { readonly memberId: string } }[] };

/** Everybody with a casting in a firing, whose firing it is first, each once. */
export function peopleIn({ memberId, castings }: Shared): readonly string[] {
  return [...new Set([memberId, ...castings.map(({ casting }) => casting.memberId)])];
}

export function isIn(firing: Shared, memberId: string): boolean {
  return peopleIn(firing).includes(memberId);
}

/** Those of them who are told of what one of them, or somebody else, did. */
export function othersIn(firing: Shared, memberId: string): readonly string[] {
  return peopleIn(firing).filter((one) => one !== memberId);
}

/** Whether what one person does to this firing concerns others. */
export function isShared(firing: Shared): boolean {
  return firing.castings.length > 1;
}

/** What is done to a shared firing for all in it needs a reason that they can read. */
export function owedReason(firing: Shared, reason: string | undefined, what: string): Refusal | undefined {
  if (!isShared(firing) || (reason ?? "").trim().length >= REASON_MIN_CHARS) return undefined;
  return refuse({
    code: "reason-too-short", field: "reason", value: reason ?? "", allowed: `${REASON_MIN_CHARS} characters or more`,
    message: `Others share this firing and are told: say why ${what}, in ${REASON_MIN_CHARS} characters or more.`,
  });
}
