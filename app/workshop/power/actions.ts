"use server";

import type { ActionState } from "@/lib/contracts/action-state";
import { readNumber } from "@/lib/contracts/form-number";
import type { Outcome } from "@/lib/domain/refusal";
import { removeTariff } from "@/lib/server/commands/remove-tariff";
import { setPowerLimit } from "@/lib/server/commands/set-power-limit";
import { setTariff } from "@/lib/server/commands/set-tariff";
import { formAction, runAction } from "@/lib/server/form-action";

export async function powerAction(_: ActionState, form: FormData): Promise<ActionState> {
  const typed = form.get("kw");
  const text = typeof typed === "string" ? typed.trim() : "";
  const kw = text === "" ? { ok: true as const, value: null } : readNumber("kw", text, { label: "The limit", unit: "kW" });
  if (!kw.ok) return { problems: kw.problems };
  return formAction(setPowerLimit, { kw: kw.value }, {
    said: ({ tooStrong }) => (tooStrong.length === 0 ? "The limit is kept." : `The limit is kept. ${tooStrong.join(", ")} alone would draw more and can no longer be booked.`),
  });
}

export type TypedBand = { readonly name: string; readonly weekdays: readonly number[]; readonly from: string; readonly to: string; readonly price: string };
export type TypedTariff = { readonly currency: string; readonly standingPerDay: string; readonly bands: readonly TypedBand[] };

export async function tariffAction(typed: TypedTariff): Promise<Outcome<{ readonly bands: number }>> {
  return runAction(setTariff, typed);
}

export async function removeTariffAction(form: FormData): Promise<Outcome<unknown>> {
  return runAction(removeTariff, { reason: form.get("reason") ?? "" });
}
