"use server";

import { revalidatePath } from "next/cache";
import { cookies, headers } from "next/headers";
import { redirect } from "next/navigation";
import type { ActionState } from "@/lib/contracts/action-state";
import { paths } from "@/lib/contracts/paths";
import { changePassword } from "@/lib/server/accounts/change-password";
import { endSessions } from "@/lib/server/accounts/end-sessions";
import { requestAddress } from "@/lib/server/accounts/request-address";
import type { Outcome } from "@/lib/domain/refusal";
import { NOT_SIGNED_IN } from "@/lib/server/command";
import { chooseMail } from "@/lib/server/commands/choose-mail";
import { makeToken } from "@/lib/server/commands/make-token";
import { revokeToken } from "@/lib/server/commands/revoke-token";
import { formAction, runAction } from "@/lib/server/form-action";
import { currentMemberships, currentPerson, WORKSHOP_COOKIE, workshopCookie } from "@/lib/server/session";

export type MadeToken = { readonly tokenId: string; readonly name: string; readonly token: string };

export async function makeTokenAction(name: string, scopes: readonly string[]): Promise<Outcome<MadeToken>> {
  return runAction(makeToken, { name, scopes });
}

export async function revokeTokenAction(form: FormData): Promise<Outcome<unknown>> {
  return runAction(revokeToken, { tokenId: form.get("tokenId") });
}

export async function chooseMailAction(_: ActionState, form: FormData): Promise<ActionState> {
  return formAction(chooseMail, { mailed: form.getAll("mailed") }, { said: ({ mailed }) => (mailed.length === 0 ? "Nothing is mailed to you from now on." : "From now on what is ticked is mailed to you.") });
}

export async function changePasswordAction(_: ActionState, form: FormData): Promise<ActionState> {
  const person = await currentPerson();
  if (person === null) return { problems: [NOT_SIGNED_IN] };
  const address = requestAddress((await headers()).get("x-forwarded-for"));
  const outcome = await changePassword(person, { oldPassword: form.get("oldPassword"), password: form.get("password") }, address);
  if (!outcome.ok) return { problems: outcome.problems };
  revalidatePath("/", "layout");
  redirect(`${paths.signIn}?done=password`);
}

export async function endSessionsAction(): Promise<void> {
  const person = await currentPerson();
  if (person !== null) await endSessions(person.personId);
  revalidatePath("/", "layout");
  redirect(paths.signIn);
}

export async function chooseWorkshopAction(form: FormData): Promise<void> {
  const wished = form.get("workshopId");
  const mine = (await currentMemberships()).find((membership) => membership.workshopId === wished);
  if (mine !== undefined) {
    (await cookies()).set(WORKSHOP_COOKIE, mine.workshopId, workshopCookie());
  }
  revalidatePath("/", "layout");
  redirect(paths.home);
}
