import { Temporal } from "temporal-polyfill";
import { runAnswerSchema, type RunAnswer } from "@/lib/contracts/api/runs-answer";
import type { FiringScreen } from "@/lib/server/queries/firing";

/** One run for a script; the screen's own extras are left out. */
export function runAnswer(screen: FiringScreen): RunAnswer {
  const { firingId, castingId, title, owner, mine, status, version, neededBy, kiln, expectedEnd, endedReason, parts, lifts } = screen;
  return runAnswerSchema.parse({
    firingId, castingId, title, owner, mine, status, version, neededBy,
    kilnId: kiln.id,
    kilnName: kiln.name,
    kilnFrom: plain(kiln.from),
    kilnTo: plain(kiln.to),
    expectedEnd: expectedEnd === null ? null : plain(expectedEnd),
    endedReason,
    parts: parts.map((part) => ({ ...part, from: plain(part.from), to: plain(part.to) })),
    lifts: lifts.map((lift) => ({ ...lift, from: plain(lift.from), to: plain(lift.to) })),
  });
}

/** Written like every other instant of the interface, without empty milliseconds. */
function plain(iso: string): string {
  return Temporal.Instant.from(iso).toString();
}
