import { hash, verify } from "@node-rs/argon2";
import type { Temporal } from "temporal-polyfill";
import { accounts } from "@/lib/server/db";
import { now, toDate } from "@/lib/server/clock";

/** OWASP's first choice for argon2id: 19 MiB, two passes, one lane (OWASP Password Storage Cheat Sheet, from memory). */
const ARGON2 = { memoryCost: 19_456, timeCost: 2, parallelism: 1 };

/** After this many failures in the window a further attempt is refused unread. */
export const MAX_FAILURES_PER_EMAIL = 5;
export const MAX_FAILURES_PER_ADDRESS = 30;
export const ATTEMPT_WINDOW_MINUTES = 15;
/** Attempts are kept no longer than somebody looking into them needs. */
const KEEP_ATTEMPTS_HOURS = 72;

export function hashPassword(password: string): Promise<string> {
  return hash(password, ARGON2);
}

let stranger: Promise<string> | undefined;

export type SignedIn = { readonly personId: string; readonly email: string; readonly sessionVersion: number };

/**
 * Checks an address and a password. "limited" after too many failures; undefined when they do not
 * match, in the same time whether or not the address is known.
 *
 * The attempt is written down as failed before it is looked at, so that many sent at the same instant
 * count each other.
 */
export async function signIn(email: string, password: string, address: string): Promise<SignedIn | "limited" | undefined> {
  const attempts = accounts().signInAttempt;
  const at = now();
  const known = email.trim().toLowerCase();
  const { attemptId } = await attempts.create({ data: { email: known, address, at: toDate(at), succeeded: false } });
  if (await tooManyFailures(known, address, at, attemptId)) {
    await attempts.deleteMany({ where: { attemptId } });
    return "limited";
  }
  const person = await accounts().person.findUnique({ where: { email: known } });
  stranger ??= hashPassword("nobody has this password");
  const matches = await verify(person?.passwordHash ?? (await stranger), password);
  if (person === null || !matches) return undefined;
  await attempts.create({ data: { email: known, address, at: toDate(at), succeeded: true } });
  await attempts.deleteMany({ where: { OR: [{ attemptId }, { at: { lt: toDate(at.subtract({ hours: KEEP_ATTEMPTS_HOURS })) } }] } });
  return { personId: person.personId, email: person.email, sessionVersion: person.sessionVersion };
}

/** Failures since the last success, this attempt not counted. */
async function tooManyFailures(email: string, address: string, at: Temporal.Instant, own: bigint): Promise<boolean> {
  const since = toDate(at.subtract({ minutes: ATTEMPT_WINDOW_MINUTES }));
  const failed = { succeeded: false, attemptId: { not: own } };
  const lastSuccess = await accounts().signInAttempt.findFirst({
    where: { email, succeeded: true, at: { gt: since } },
    orderBy: { at: "desc" },
  });
  const failures = await accounts().signInAttempt.count({ where: { ...failed, email, at: { gt: lastSuccess?.at ?? since } } });
  if (failures >= MAX_FAILURES_PER_EMAIL) return true;
  if (address === "unknown") return false;
  const fromAddress = await accounts().signInAttempt.count({ where: { ...failed, address, at: { gt: since } } });
  return fromAddress >= MAX_FAILURES_PER_ADDRESS;
}
