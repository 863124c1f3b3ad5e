"use server";

import type { ActionState } from "@/lib/contracts/action-state";
import type { Outcome } from "@/lib/domain/refusal";
import { changeRoles } from "@/lib/server/commands/change-roles";
import { deactivateMember } from "@/lib/server/commands/deactivate-member";
import { invitePerson } from "@/lib/server/commands/invite-person";
import { reactivateMember } from "@/lib/server/commands/reactivate-member";
import { withdrawInvitation } from "@/lib/server/commands/withdraw-invitation";
import { setInductions } from "@/lib/server/commands/set-inductions";
import { formAction, runAction } from "@/lib/server/form-action";

export type Invited = { readonly name: string; readonly email: string; readonly link: string };

export async function inviteAction(name: string, email: string, roles: readonly string[]): Promise<Outcome<Invited>> {
  return runAction(invitePerson, { name, email, roles });
}

export async function rolesAction(_: ActionState, form: FormData): Promise<ActionState> {
  return formAction(changeRoles, { memberId: form.get("memberId"), roles: form.getAll("roles") }, { said: () => "The roles are changed." });
}

export async function inductionsAction(_: ActionState, form: FormData): Promise<ActionState> {
  return formAction(setInductions, { memberId: form.get("memberId"), kilnIds: form.getAll("kilnIds") }, { said: () => "The inductions are kept." });
}

export async function deactivateAction(form: FormData): Promise<Outcome<unknown>> {
  return runAction(deactivateMember, { memberId: form.get("memberId"), reason: form.get("reason") ?? "" });
}

export async function reactivateAction(form: FormData): Promise<Outcome<unknown>> {
  return runAction(reactivateMember, { memberId: form.get("memberId"), reason: form.get("reason") ?? "" });
}

export async function withdrawAction(form: FormData): Promise<Outcome<unknown>> {
  return runAction(withdrawInvitation, { invitationId: form.get("invitationId"), reason: form.get("reason") ?? "" });
}
