import { z } from "zod";
import { newPasswordSchema } from "@/lib/contracts/password";
import { problemsOf } from "@/lib/contracts/problems";
import { ok, refusalOf, refuse, type Outcome, type Problem } from "@/lib/domain/refusal";
import { recordEverywhere } from "@/lib/server/accounts/record-everywhere";
import { now, toDate } from "@/lib/server/clock";
import { accounts, asPerson } from "@/lib/server/db";
import { hashPassword } from "@/lib/server/sign-in";
import { hashToken } from "@/lib/server/tokens";

export type ResetState = "usable" | "used" | "expired" | "unknown";

/** How a mailed link stands, for the page that opens with it. */
export async function resetState(token: string): Promise<ResetState> {
  const reset = await accounts().passwordReset.findUnique({ where: { tokenHash: hashToken(token) } });
  if (reset === null) return "unknown";
  if (reset.usedAt !== null) return "used";
  return reset.expiresAt > toDate(now()) ? "usable" : "expired";
}

const Input = z.strictObject({ token: z.string(), password: newPasswordSchema });

/**
 * Sets a new password by a mailed link, once. Every session ends, every other open link of this person is spent, and
 * failed attempts are forgotten: whoever reads the person's mail has shown who they are.
 */
export async function resetPassword(raw: unknown): Promise<Outcome<{ readonly email: string }>> {
  const parsed = Input.safeParse(raw);
  if (!parsed.success) return refusalOf(problemsOf(parsed.error, raw)) ?? refuse(LINK_PROBLEMS.unknown);
  const { token, password } = parsed.data;
  const state = await resetState(token);
  const reset = await accounts().passwordReset.findUnique({ where: { tokenHash: hashToken(token) } });
  if (reset === null || state !== "usable") return refuse(LINK_PROBLEMS[state === "usable" ? "unknown" : state]);
  const passwordHash = await hashPassword(password);
  const at = now();
  const email = await asPerson(reset.personId, async (tx) => {
    const { count } = await tx.passwordReset.updateMany({
      where: { tokenHash: reset.tokenHash, usedAt: null, expiresAt: { gt: toDate(at) } },
      data: { usedAt: toDate(at) },
    });
    if (count === 0) return undefined;
    await tx.passwordReset.updateMany({ where: { personId: reset.personId, usedAt: null }, data: { usedAt: toDate(at) } });
    const person = await tx.person.update({
      where: { personId: reset.personId },
      data: { passwordHash, sessionVersion: { increment: 1 } },
    });
    await tx.signInAttempt.deleteMany({ where: { email: person.email, succeeded: false } });
    await recordEverywhere(tx, person.personId, at, "reset-password");
    return person.email;
  });
  return email === undefined ? refuse(LINK_PROBLEMS.used) : ok({ email });
}

export const LINK_PROBLEMS = {
  used: { code: "link-used", message: "This link has been used already; it works once. Ask for another if you need it." },
  expired: { code: "link-expired", message: "This link has expired; it works for one hour. Ask for another." },
  unknown: { code: "link-unknown", message: "This link is not one of ours, or a part of it was lost on the way. Ask for another." },
} as const satisfies Readonly<Record<string, Problem>>;
