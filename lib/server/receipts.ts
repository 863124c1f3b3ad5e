import type { Temporal } from "temporal-polyfill";
import { refuse, type Outcome } from "@/lib/domain/refusal";
import { toDate } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";
import type { Who } from "@/lib/server/who";

/**
 * The answer an earlier request with this key got, or undefined when this is the first. The lock
 * makes the second of two simultaneous clicks wait for the first one's answer instead of racing it
 * into the overlap constraint and being told that the kiln is taken, by itself.
 */
export async function givenAnswer<O>(tx: Tx, who: Who, command: string, requestKey: string): Promise<Outcome<O> | undefined> {
  const lock = `${who.workshopId}:${who.memberId}:${requestKey}`;
  await tx.$executeRaw`SELECT pg_advisory_xact_lock(hashtextextended(${lock}, 0))`;
  const receipt = await tx.receipt.findUnique({
    where: {
      workshopId_memberId_requestKey: { workshopId: who.workshopId, memberId: who.memberId, requestKey },
    },
  });
  if (receipt === null) return undefined;
  if (receipt.command !== command) {
    return refuse({ code: "request-key-reused", message: `This request key was already used for ${receipt.command}.`, field: "requestKey" });
  }
  return receipt.answer as Outcome<O>;
}

export async function keepAnswer<O>(
  tx: Tx,
  who: Who,
  command: string,
  requestKey: string,
  at: Temporal.Instant,
  answer: Outcome<O>,
): Promise<void> {
  await tx.receipt.create({
    data: {
      workshopId: who.workshopId,
      memberId: who.memberId,
      requestKey,
      command,
      answer: JSON.parse(JSON.stringify(answer)),
      at: toDate(at),
    },
  });
}
