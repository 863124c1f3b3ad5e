import type { Problem } from "@/lib/domain/refusal";

export const INVITATION_VALID_DAYS = 7;

export const INVITATION_PROBLEMS = {
  used: { code: "invitation-used", message: "This invitation has been used already; it works once. If it was you, sign in." },
  expired: { code: "invitation-expired", message: `This invitation has expired; it works for ${INVITATION_VALID_DAYS} days. Ask the manager for another.` },
  withdrawn: { code: "invitation-withdrawn", message: "This invitation was withdrawn by the workshop. Ask the manager if you think it should stand." },
  unknown: { code: "invitation-unknown", message: "This link is not one of ours, or a part of it was lost on the way. Ask the manager for another." },
} as const satisfies Readonly<Record<string, Problem>>;
