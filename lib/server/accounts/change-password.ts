import { z } from "zod";
import { givenPasswordSchema, newPasswordSchema } from "@/lib/contracts/password";
import { problemsOf } from "@/lib/contracts/problems";
import { ok, refusalOf, refuse, type Outcome } from "@/lib/domain/refusal";
import { recordEverywhere } from "@/lib/server/accounts/record-everywhere";
import { WRONG_PASSWORD, LIMITED } from "@/lib/server/accounts/sign-in-problems";
import { now } from "@/lib/server/clock";
import { asPerson } from "@/lib/server/db";
import type { SignedInPerson } from "@/lib/server/session";
import { hashPassword, signIn } from "@/lib/server/sign-in";

const Input = z.strictObject({ oldPassword: givenPasswordSchema, password: newPasswordSchema });

/** Sets a new password for whoever knows the old one, and ends every session, this one included. */
export async function changePassword(person: SignedInPerson, raw: unknown, address: string): Promise<Outcome<{ readonly email: string }>> {
  const parsed = Input.safeParse(raw);
  if (!parsed.success) return refusalOf(problemsOf(parsed.error, raw)) ?? refuse(WRONG_PASSWORD);
  const known = await signIn(person.email, parsed.data.oldPassword, address);
  if (known === "limited") return refuse(LIMITED);
  if (known === undefined) return refuse({ ...WRONG_PASSWORD, field: "oldPassword" });
  const passwordHash = await hashPassword(parsed.data.password);
  await asPerson(person.personId, async (tx) => {
    await tx.person.update({ where: { personId: person.personId }, data: { passwordHash, sessionVersion: { increment: 1 } } });
    await recordEverywhere(tx, person.personId, now(), "change-password");
  });
  return ok({ email: person.email });
}
