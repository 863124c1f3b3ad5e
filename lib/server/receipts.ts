import type { Temporal } from "temporal-polyfill";
import { refuse, type Outcome } from "@/lib/domain/refusal";
import { toDate } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";
import type { Who } from "@/lib/server/who";

/** One request to a command; `requestHash` is known when a script asks, and stands for all that it asked for. */
export type KeyedRequest = { readonly command: string; readonly requestKey: string; readonly requestHash: string | undefined };

/**
 * The answer an earlier request with this key got, or undefined when this is the first. The lock
 * makes the second of two simultaneous clicks wait for the first one's answer instead of racing it
 * into the overlap constraint and being told that the kiln is taken, by itself.
 */
export async function givenAnswer<O>(tx: Tx, who: Who, { command, requestKey, requestHash }: KeyedRequest): Promise<Outcome<O> | undefined> {
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
  if (requestHash !== undefined && receipt.requestHash !== requestHash) {
    return refuse({ code: "request-key-reused", message: "This request key was already used to ask for something else; a new request needs a new key.", field: "requestKey" });
  }
  return receipt.answer as Outcome<O>;
}

export async function keepAnswer<O>(tx: Tx, who: Who, request: KeyedRequest, at: Temporal.Instant, answer: Outcome<O>): Promise<void> {
  const { command, requestKey, requestHash } = request;
  await tx.receipt.create({
    data: {
      workshopId: who.workshopId,
      memberId: who.memberId,
      requestKey,
      command,
      answer: JSON.parse(JSON.stringify(answer)),
      at: toDate(at),
      requestHash: requestHash ?? null,
    },
  });
}
