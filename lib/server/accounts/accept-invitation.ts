import { z } from "zod";
import { givenPasswordSchema, newPasswordSchema } from "@/lib/contracts/password";
import { problemsOf } from "@/lib/contracts/problems";
import { ok, refusalOf, refuse, type Outcome, type Problem, type Refusal } from "@/lib/domain/refusal";
import { INVITATION_PROBLEMS } from "@/lib/server/accounts/invitation-problems";
import { readInvitation, type InvitationFound } from "@/lib/server/accounts/read-invitation";
import { LIMITED, WRONG_PASSWORD } from "@/lib/server/accounts/sign-in-problems";
import { writeMember, type Joiner } from "@/lib/server/accounts/write-member";
import { inWorkshop } from "@/lib/server/db";
import { postgresRefusal } from "@/lib/server/postgres-errors";
import { hashPassword, signIn } from "@/lib/server/sign-in";

const Input = z.strictObject({ token: z.string(), password: z.string().optional() });

export type Joined = { readonly email: string; readonly workshopId: string; readonly memberId: string };

/** Who is already signed in while accepting, and where the request came from. */
type Asking = { readonly personId: string | null; readonly address: string };

/**
 * Makes somebody a member by an invitation's link, once. A new person chooses a password; one who has an account
 * confirms with it, or is signed in to it. Of two uses at the same instant one wins, and nothing of the other remains.
 */
export async function acceptInvitation(raw: unknown, asking: Asking): Promise<Outcome<Joined>> {
  const parsed = Input.safeParse(raw);
  if (!parsed.success) return refusalOf(problemsOf(parsed.error, raw)) ?? refuse(INVITATION_PROBLEMS.unknown);
  const { token, password = "" } = parsed.data;
  const invitation = await readInvitation(token);
  if (invitation === null) return refuse(INVITATION_PROBLEMS.unknown);
  if (invitation.state !== "open") return refuse(INVITATION_PROBLEMS[invitation.state]);
  const joiner = await joinerOf(invitation, password, asking);
  if (!joiner.ok) return (await spentMeanwhile(token)) ?? joiner;
  try {
    const memberId = await inWorkshop(invitation.workshopId, (tx) => writeMember(tx, invitation, joiner.value));
    if (memberId === null) return refuse(INVITATION_PROBLEMS.used);
    return ok({ email: invitation.email, workshopId: invitation.workshopId, memberId });
  } catch (error) {
    if (postgresRefusal(error)?.constraint?.startsWith("person_email_once") === true) return (await spentMeanwhile(token)) ?? refuse(JUST_MADE);
    throw error;
  }
}

/** Another use may have won between our reading the invitation and looking for the account: that is the reason to tell. */
async function spentMeanwhile(token: string): Promise<Refusal | undefined> {
  const state = (await readInvitation(token))?.state ?? "unknown";
  return state === "open" ? undefined : refuse(INVITATION_PROBLEMS[state]);
}

async function joinerOf(invitation: InvitationFound, password: string, asking: Asking): Promise<Outcome<Joiner>> {
  if (invitation.personId === null) return newJoiner(password);
  if (invitation.personId === asking.personId) return ok({ personId: invitation.personId });
  const given = givenPasswordSchema.safeParse(password);
  if (!given.success) return refuse({ code: "missing", field: "password", message: "Give the password of your account." });
  const known = await signIn(invitation.email, given.data, asking.address);
  if (known === "limited") return refuse(LIMITED);
  return known === undefined ? refuse({ ...WRONG_PASSWORD, field: "password" }) : ok({ personId: known.personId });
}

async function newJoiner(password: string): Promise<Outcome<Joiner>> {
  const chosen = newPasswordSchema.safeParse(password);
  if (chosen.success) return ok({ passwordHash: await hashPassword(chosen.data) });
  const message = chosen.error.issues[0]?.message ?? "This password cannot be used.";
  return refuse({ code: "out-of-range", field: "password", message });
}

const JUST_MADE: Problem = {
  code: "account-just-made",
  message: "An account with this address was made this very moment. Open the link again and confirm with its password.",
};
