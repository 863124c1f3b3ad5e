import { hash, verify } from "@node-rs/argon2";
import type { Temporal } from "temporal-polyfill";
import { accounts } from "@/lib/server/db";
import { now, toDate } from "@/lib/server/clock";

/** OWASP's first choice for argon2id: 19 MiB, two passes, one lane (OWASP Password Storage Cheat Sheet, from memory). */
const ARGON2 = { memoryCost: 19_456, timeCost: 2, parallelism: 1 };

export const MIN_PASSWORD = 10;

/** After this many failures in the window a further attempt is refused unread. */
export const MAX_FAILURES_PER_EMAIL = 5;
export const MAX_FAILURES_PER_ADDRESS = 30;
export const ATTEMPT_WINDOW_MINUTES = 15;

export function hashPassword(password: string): Promise<string> {
  return hash(password, ARGON2);
}

let stranger: Promise<string> | undefined;

export type SignedIn = { readonly personId: string; readonly email: string; readonly sessionVersion: number };

/**
 * Checks an address and a password. "limited" after too many failures; undefined when they do not
 * match, in the same time whether or not the address is known.
 */
export async function signIn(email: string, password: string, address: string): Promise<SignedIn | "limited" | undefined> {
  const at = now();
  const known = email.trim().toLowerCase();
  if (await tooManyFailures(known, address, at)) return "limited";
  const person = await accounts().person.findUnique({ where: { email: known } });
  stranger ??= hashPassword("nobody has this password");
  const matches = await verify(person?.passwordHash ?? (await stranger), password);
  const succeeded = person !== null && matches;
  await accounts().signInAttempt.create({ data: { email: known, address, at: toDate(at), succeeded } });
  if (!succeeded) return undefined;
  return { personId: person.personId, email: person.email, sessionVersion: person.sessionVersion };
}

async function tooManyFailures(email: string, address: string, at: Temporal.Instant): Promise<boolean> {
  const since = toDate(at.subtract({ minutes: ATTEMPT_WINDOW_MINUTES }));
  const lastSuccess = await accounts().signInAttempt.findFirst({
    where: { email, succeeded: true, at: { gt: since } },
    orderBy: { at: "desc" },
  });
  const failures = await accounts().signInAttempt.count({
    where: { email, succeeded: false, at: { gt: lastSuccess?.at ?? since } },
  });
  if (failures >= MAX_FAILURES_PER_EMAIL) return true;
  if (address === "unknown") return false;
  const fromAddress = await accounts().signInAttempt.count({ where: { address, succeeded: false, at: { gt: since } } });
  return fromAddress >= MAX_FAILURES_PER_ADDRESS;
}
