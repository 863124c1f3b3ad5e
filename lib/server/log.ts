import { randomUUID } from "node:crypto";
import pino from "pino";

export const log = pino({ base: null, timestamp: pino.stdTimeFunctions.isoTime });

/** Writes one line for a bug and returns the short id the person is shown. */
export function logFault(where: string, error: unknown): string {
  const id = randomUUID().slice(0, 8);
  log.error({ id, where, err: error instanceof Error ? error : new Error(String(error)) }, "fault");
  return id;
}

/** Writes one line for a settlement that did not stand its check and was taken back; returns the short id the manager is shown. */
export function logObjections(settlementId: string, objections: readonly { readonly fact: string; readonly sentence: string }[]): string {
  const id = randomUUID().slice(0, 8);
  log.error({ id, where: "verify-settlement", settlementId, objections }, "settlement taken back");
  return id;
}
