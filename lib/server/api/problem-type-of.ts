import type { ProblemType } from "@/lib/contracts/api/problem-types";
import type { Problem } from "@/lib/domain/refusal";

/** What collides with how the calendar stands now; asked again later, or for other hours, it may go. */
const CONFLICTS = new Set([
  "kiln-taken", "steamer-taken", "trolley-taken", "taken", "steam-out-taken", "no-steam-out", "overload", "thin-crew",
  "already-booked", "changed-meanwhile", "not-planned", "withdrawn",
]);

const BY_CODE: Readonly<Record<string, ProblemType>> = {
  "not-found": "not-found",
  "unknown-kiln": "not-found",
  "not-allowed": "not-allowed",
  "request-key-reused": "key-reused",
  "fault": "fault",
};

/** The kind of a command's refusal, by what stands first. */
export function problemTypeOf({ code }: Problem): ProblemType {
  return CONFLICTS.has(code) ? "conflict" : (BY_CODE[code] ?? "refused");
}
