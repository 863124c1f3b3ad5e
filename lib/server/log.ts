import { randomUUID } from "node:crypto";
import pino from "pino";

export const log = pino({ base: null, timestamp: pino.stdTimeFunctions.isoTime });

/** Writes one line for a bug and returns the short id the person is shown. */
export function logFault(where: string, error: unknown): string {
  const id = randomUUID().slice(0, 8);
  log.error({ id, where, err: error instanceof Error ? error : new Error(String(error)) }, "fault");
  return id;
}
