import { AsyncLocalStorage } from "node:async_hooks";
import { Temporal } from "temporal-polyfill";
import { env } from "@/lib/server/env";

const processStartMs = Date.now();
const elsewhere = new AsyncLocalStorage<Temporal.Instant>();

/** The one clock of the server. Tests start it elsewhere; it then runs on at the usual pace. */
export function now(): Temporal.Instant {
  const pretended = elsewhere.getStore();
  if (pretended !== undefined) return pretended;
  const start = env().clockStart;
  if (start === undefined) return Temporal.Now.instant();
  const startMs = Temporal.Instant.from(start).epochMilliseconds;
  return Temporal.Instant.fromEpochMilliseconds(startMs + (Date.now() - processStartMs));
}

/** Does the work as if it were that instant: for the demo workshop's past, and for tests. */
export function atInstant<T>(instant: Temporal.Instant, work: () => Promise<T>): Promise<T> {
  return elsewhere.run(instant, work);
}

export function toDate(instant: Temporal.Instant): Date {
  return new Date(instant.epochMilliseconds);
}

export function toInstant(date: Date): Temporal.Instant {
  return Temporal.Instant.fromEpochMilliseconds(date.getTime());
}

/** A `date` column comes back as midnight UTC of that day. */
export function toPlainDate(date: Date): Temporal.PlainDate {
  return Temporal.PlainDate.from(date.toISOString().slice(0, 10));
}

export function fromPlainDate(date: Temporal.PlainDate): Date {
  return new Date(`${date.toString()}T00:00:00Z`);
}
