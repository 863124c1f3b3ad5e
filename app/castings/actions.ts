"use server";

import { redirect } from "next/navigation";
import type { ActionState } from "@/lib/contracts/action-state";
import { castingFormFrom } from "@/lib/contracts/casting-fields";
import { readCasting } from "@/lib/contracts/casting-form";
import { paths } from "@/lib/contracts/paths";
import type { Outcome } from "@/lib/domain/refusal";
import { changeCasting } from "@/lib/server/commands/change-casting";
import { createCasting } from "@/lib/server/commands/create-casting";
import { withdrawCasting } from "@/lib/server/commands/withdraw-casting";
import { formAction, runAction } from "@/lib/server/form-action";
import { formMesh } from "@/lib/server/mesh/form-mesh";

export async function createCastingAction(_: ActionState, form: FormData): Promise<ActionState> {
  const fields = castingFormFrom(form);
  const read = readCasting(fields, await formMesh(fields["piece.meshId"]));
  if (!read.ok) return { problems: read.problems };
  return formAction(createCasting, { ...read.value, requestKey: form.get("requestKey") }, { goTo: ({ castingId }) => paths.casting(castingId) });
}

export async function changeCastingAction(_: ActionState, form: FormData): Promise<ActionState> {
  const fields = castingFormFrom(form);
  const read = readCasting(fields, await formMesh(fields["piece.meshId"]));
  if (!read.ok) return { problems: read.problems };
  const raw = { ...read.value, castingId: form.get("castingId"), version: Number(form.get("version")) };
  return formAction(changeCasting, raw, { said: () => "The casting is saved as it stands here." });
}

export async function withdrawCastingAction(form: FormData): Promise<Outcome<unknown>> {
  const outcome = await runAction(withdrawCasting, { castingId: form.get("castingId") });
  if (outcome.ok) redirect(paths.castings);
  return outcome;
}
