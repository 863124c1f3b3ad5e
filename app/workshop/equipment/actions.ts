"use server";

import type { ActionState } from "@/lib/contracts/action-state";
import { equipmentFromForm } from "@/lib/contracts/equipment-form";
import { paths } from "@/lib/contracts/paths";
import type { Outcome } from "@/lib/domain/refusal";
import { addEquipment } from "@/lib/server/commands/add-equipment";
import { beginOutage } from "@/lib/server/commands/begin-outage";
import { changeEquipment } from "@/lib/server/commands/change-equipment";
import { endOutage } from "@/lib/server/commands/end-outage";
import { restoreEquipment } from "@/lib/server/commands/restore-equipment";
import { retireEquipment } from "@/lib/server/commands/retire-equipment";
import { formAction, runAction } from "@/lib/server/form-action";

function text(form: FormData, name: string): string {
  const value = form.get(name);
  return typeof value === "string" ? value : "";
}

export async function saveEquipmentAction(_: ActionState, form: FormData): Promise<ActionState> {
  const read = equipmentFromForm((name) => text(form, name));
  if (!read.ok) return { problems: read.problems };
  const equipmentId = text(form, "equipmentId");
  if (equipmentId === "") return formAction(addEquipment, read.value, { goTo: () => paths.equipment });
  return formAction(changeEquipment, { ...read.value, equipmentId }, {
    said: ({ standingRuns }) =>
      standingRuns === 0 ? "The changes are kept." : `The changes are kept. ${standingRuns} booked ${standingRuns === 1 ? "run keeps its plan" : "runs keep their plans"}; look whether they still fit.`,
  });
}

export async function beginOutageAction(_: ActionState, form: FormData): Promise<ActionState> {
  const raw = { equipmentId: text(form, "equipmentId"), from: text(form, "from"), to: text(form, "to"), reason: text(form, "reason") };
  return formAction(beginOutage, raw, {
    said: ({ name, touched }) =>
      touched.length === 0 ? `${name} is out of service for that time. No run is touched.` : `${name} is out of service for that time. It touches ${touched.map((one) => one.title).join(", ")}: see Clashes.`,
  });
}

export async function endOutageAction(form: FormData): Promise<Outcome<unknown>> {
  return runAction(endOutage, { outageId: form.get("outageId") });
}

export async function retireAction(form: FormData): Promise<Outcome<unknown>> {
  return runAction(retireEquipment, { equipmentId: form.get("equipmentId"), reason: form.get("reason") });
}

export async function restoreAction(form: FormData): Promise<Outcome<unknown>> {
  return runAction(restoreEquipment, { equipmentId: form.get("equipmentId"), reason: form.get("reason") ?? "" });
}
