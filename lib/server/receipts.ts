import type { Temporal } from "temporal-polyfill";
import { refuse, type Outcome } from "@/lib/domain/refusal";
import { toDate } from "@/lib/server/clock";
import { sendLater, sql, type Sql, type Statements } from "@/lib/server/statements";
import type { Who } from "@/lib/server/who";

/** One request to a command; `requestHash` is known when a script asks, and stands for all that it asked for. */
export type KeyedRequest = { readonly command: string; readonly requestKey: string; readonly requestHash: string | undefined };

/**
 * The answer an earlier request with this key got, or undefined when this is the first. The lock
 * makes the second of two simultaneous clicks wait for the first one's answer instead of racing it
 * into the overlap constraint and being told that the kiln is taken, by itself.
 */
export async function givenAnswer<O>(tx: Statements, who: Who, { command, requestKey, requestHash }: KeyedRequest): Promise<Outcome<O> | undefined> {
  const [lock, read] = receiptStatements(who, requestKey);
  await tx.$executeRaw(lock);
  const [receipt] = await tx.$queryRaw<readonly { readonly command: string; readonly request_hash: string | null; readonly answer: unknown }[]>(read);
  if (receipt === undefined) return undefined;
  if (receipt.command !== command) {
    return refuse({ code: "request-key-reused", message: `This request key was already used for ${receipt.command}.`, field: "requestKey" });
  }
  if (requestHash !== undefined && receipt.request_hash !== requestHash) {
    return refuse({ code: "request-key-reused", message: "This request key was already used to ask for something else; a new request needs a new key.", field: "requestKey" });
  }
  return receipt.answer as Outcome<O>;
}

/** What `givenAnswer` asks, in this order. */
export function receiptStatements(who: Who, requestKey: string): readonly [lock: Sql, read: Sql] {
  return [
    sql`/* prepared */ SELECT pg_advisory_xact_lock(hashtextextended(${`${who.workshopId}:${who.memberId}:${requestKey}`}, 0))`,
    sql`/* prepared */ SELECT command, request_hash, answer FROM receipt WHERE workshop_id = ${who.workshopId}::uuid AND member_id = ${who.memberId}::uuid AND request_key = ${requestKey}`,
  ];
}

export async function keepAnswer<O>(tx: Statements, who: Who, request: KeyedRequest, at: Temporal.Instant, answer: Outcome<O>): Promise<void> {
  const { command, requestKey, requestHash } = request;
  await sendLater(tx, sql`
    /* prepared */ INSERT INTO receipt (workshop_id, member_id, request_key, command, answer, at, request_hash)
    VALUES (${who.workshopId}::uuid, ${who.memberId}::uuid, ${requestKey}, ${command}, ${JSON.stringify(answer)}::jsonb, ${toDate(at)}, ${requestHash ?? null})`);
}
